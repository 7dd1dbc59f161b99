/**
 * Puts a ticket right before it is settled, as a new version with a reason, or voids it: its number stays taken. What
 * was recorded first stays to be read.
 */
import type { Posting } from '../../journal/accounts.ts';
import { deliveryPostings, reversedPostings } from '../../journal/accounts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import {
  findLoad,
  insertLoadVersions,
  type LoadRow,
  type LoadVersionRow,
  readLoadsByTicket,
  type TicketRow,
} from '../../store/rows/load-rows.ts';
import { readClosing } from '../../store/rows/signing-rows.ts';
import { type FoundAgreement, findOwnAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import type { InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseUnusual } from '../refuse-unusual.ts';
import { samplesNamed } from '../results/samples-named.ts';
import { refuseQuestioned } from '../retests/refuse-questioned.ts';
import { refuseSettled } from '../settlements/refuse-settled.ts';
import { doubtTickets } from './doubt-tickets.ts';
import { deliveredLoad, loadFact, loadVersionFact, scaleWeight } from './load-fact.ts';
import { type ReadTicket, readTickets } from './read-tickets.ts';
import { refuseAfterClosing } from './record-loads.ts';
import { refuseSpentTickets } from './refuse-spent.ts';

export interface LoadToCorrect {
  readonly loadId: string;
  /** The whole ticket as it should be, with the columns of `recordLoads`. */
  readonly load: InputRow;
  readonly reason: string;
  /** The version that was looked at. */
  readonly baseVersion: number;
  readonly key?: string;
  /** Unusual weights were looked at, and are right. */
  readonly confirmed?: boolean;
}

/**
 * Returns the version that stands now; the same figures again are no new one. Refuses `not-allowed`, `bad-input`,
 * `not-found`, `not-yours`, `changed-meanwhile` where somebody else put it right meanwhile, `already-settled`, `ticket-taken`
 * by another load, `agreement-closed`, `unusual`.
 */
export async function correctLoad(
  context: Context,
  { loadId, load: input, reason, baseVersion, key, confirmed }: LoadToCorrect,
): Promise<{ readonly version: number }> {
  permit(context, 'correct');
  const asked = { verb: 'correct-load', subject: loadId, key, input: { load: input, reason, baseVersion } };
  return await doOnce(context, asked, async (tx) => {
    const { row, found } = await findToCorrect(tx, context, { loadId, baseVersion });
    await refuseSettled(tx, row.agreementId, [{ loadId, ticket: row.ticket }]);
    const ticket = await readCorrectedTicket(tx, { row, found, input, confirmed, now: context.now() });
    return await writeCorrectedTicket(tx, context, { row, ticket, reason: readReason(reason) });
  });
}

export interface TicketToRead {
  readonly row: LoadRow;
  readonly found: FoundAgreement;
  readonly input: InputRow;
  readonly confirmed: boolean | undefined;
  /** Milliseconds since 1970. */
  readonly now: number;
}

/** A ticket as it should be. Refuses `bad-input`, `ticket-taken`, `agreement-closed`, `unusual`. */
export async function readCorrectedTicket(
  tx: Transaction,
  { row, found, input, confirmed, now }: TicketToRead,
): Promise<ReadTicket> {
  const [read] = readTickets(found, [input]);
  if (!read) throw new Error('A ticket that was read is not there');
  const { ticket } = read.ticket;
  const taken = (await readLoadsByTicket(tx, row.agreementId, [ticket])).get(ticket);
  if (taken && taken.id !== row.id) {
    throw new Refusal('ticket-taken', `Ticket ${ticket} is another load’s already.`);
  }
  await refuseSpentTickets(tx, row.agreementId, [ticket]);
  const closing = await readClosing(tx, row.agreementId);
  if (closing) refuseAfterClosing([read.ticket], closing);
  refuseUnusual(
    await doubtTickets(tx, found, { tickets: [{ ...read, correctedId: row.id }], now }),
    confirmed,
  );
  return read;
}

export interface TicketToWrite {
  readonly row: LoadRow;
  readonly ticket: ReadTicket;
  readonly reason: string;
}

/** Writes the ticket as the load's next version; the same figures again are no new one. */
export async function writeCorrectedTicket(
  tx: Transaction,
  context: Context,
  { row, ticket: { ticket, load }, reason }: TicketToWrite,
): Promise<{ readonly version: number }> {
  const isSame = JSON.stringify(loadFact(ticket)) === JSON.stringify(loadFact(row));
  if (isSame && !row.isVoid) return { version: row.version };
  const postings = [...reversed(row), ...deliveryPostings(scaleWeight(load))];
  return await writeVersion(tx, context, { row, ticket, isVoid: false, reason, postings });
}

/**
 * Voids a ticket: it is no delivery, and its number stays taken. Refuses `not-allowed`, `bad-input` without a reason,
 * `not-found`, `not-yours`, `already-settled`.
 */
export async function voidLoad(
  context: Context,
  { loadId, reason, baseVersion, key }: Omit<LoadToCorrect, 'load' | 'confirmed'>,
): Promise<{ readonly version: number }> {
  permit(context, 'correct');
  const asked = { verb: 'void-load', subject: loadId, key, input: { reason, baseVersion } };
  return await doOnce(context, asked, async (tx) => {
    const { row } = await findToCorrect(tx, context, { loadId, baseVersion });
    await refuseSettled(tx, row.agreementId, [{ loadId, ticket: row.ticket }]);
    const why = readReason(reason);
    if (row.isVoid) return { version: row.version };
    return await writeVersion(tx, context, {
      row,
      ticket: row,
      isVoid: true,
      reason: why,
      postings: reversed(row),
    });
  });
}

/** What was posted for the ticket as it stood; nothing for one that was void. */
function reversed(row: LoadRow): Posting[] {
  return row.isVoid ? [] : reversedPostings(deliveryPostings(scaleWeight(deliveredLoad(row))));
}

/** The load as it stands, its agreement locked. Refuses `not-found`, `not-yours`, `changed-meanwhile`. */
export async function findToCorrect(
  tx: Transaction,
  context: Context,
  { loadId, baseVersion }: Pick<LoadToCorrect, 'loadId' | 'baseVersion'>,
) {
  const seen = isId(loadId) ? await findLoad(tx, loadId) : undefined;
  if (!seen) throw new Refusal('not-found', 'There is no such load.');
  const found = await findOwnAgreement(tx, context.caller, seen.agreementId);
  await lockAgreement(tx, seen.agreementId);
  const row = await findLoad(tx, loadId);
  if (!row) throw new Refusal('not-found', 'There is no such load.');
  if (row.version !== baseVersion) {
    throw new Refusal(
      'changed-meanwhile',
      `Ticket ${row.ticket} was put right meanwhile. Look at it again before you change it.`,
    );
  }
  await refuseQuestioned(tx, row.agreementId, { loadId });
  return { row, found };
}

interface VersionToWrite {
  readonly row: LoadRow;
  readonly ticket: TicketRow;
  readonly isVoid: boolean;
  readonly reason: string;
  readonly postings: readonly Posting[];
}

async function writeVersion(
  tx: Transaction,
  context: Context,
  { row, ticket, isVoid, reason, postings }: VersionToWrite,
): Promise<{ readonly version: number }> {
  const { agreementId } = row;
  const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
  const names = ticket.sample === null ? [] : [ticket.sample];
  const sampleIds = await samplesNamed(tx, context, { names, recorded });
  const version: LoadVersionRow = {
    ...ticketOf(ticket),
    id: context.newId(),
    agreementId,
    loadId: row.id,
    version: row.version + 1,
    isVoid,
    reason,
    sampleId: ticket.sample === null ? null : (sampleIds.get(ticket.sample) ?? null),
    recordedBy: recorded.recordedBy,
  };
  await insertLoadVersions(tx, [version], recorded.recordedAt);
  const fact = loadVersionFact(version);
  await enterFacts(tx, [{ kind: 'load-version', fact, subjectId: version.id, postings }], recorded);
  return { version: version.version };
}

/** What a row says as a ticket. */
function ticketOf(row: TicketRow): TicketRow {
  const { ticket, deliveredAt, deliveredOn, gross, tare, unit, distance, distanceUnit, truck, sample } = row;
  const { tareAt, grossScale, tareScale, moistureReading, plate, weigher, photo } = row;
  return {
    ...{ ticket, deliveredAt, deliveredOn, gross, tare, unit, distance, distanceUnit, truck, sample },
    ...{ tareAt, grossScale, tareScale, moistureReading, plate, weigher, photo },
  };
}
