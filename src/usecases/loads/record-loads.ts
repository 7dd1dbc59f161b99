/**
 * Records scale tickets: one as a scale operator weighs it, or a season's as they come from a file.
 */
import { deliveryPostings } from '../../journal/accounts.ts';
import type { Entering } from '../../journal/chain.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { insertLoads, type LoadRow, readLoadsByTicket, type TicketRow } from '../../store/rows/load-rows.ts';
import { type ClosingRow, readClosing } from '../../store/rows/signing-rows.ts';
import { type FoundAgreement, findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import type { InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseUnusual } from '../refuse-unusual.ts';
import { samplesNamed } from '../results/samples-named.ts';
import { doubtTickets } from './doubt-tickets.ts';
import { loadFact, scaleWeight } from './load-fact.ts';
import { readTickets } from './read-tickets.ts';
import { refuseOtherWeighing, refuseSpentTickets } from './refuse-spent.ts';

export interface LoadsToRecord {
  readonly agreementId: string;
  /** With the columns of `loads.csv`, and what else a ticket may say (`TICKET_COLUMNS`). */
  readonly loads: readonly InputRow[];
  readonly key?: string;
  /** Unusual weights, and what their scales can hardly have shown, were looked at and are right. */
  readonly confirmed?: boolean;
}

export interface RecordedLoad {
  readonly id: string;
  readonly ticket: string;
  /** False where the same ticket was recorded before. */
  readonly isNew: boolean;
}

/**
 * Returns a record for each ticket, in their order; a ticket that is there already, the same, is not written again.
 * Refuses `not-allowed`, `bad-input`, `not-found`, `ticket-taken` where a ticket is there with other figures,
 * `agreement-closed` for a load after the early end that both signed, and `unusual` where a weight is hardly right and was not confirmed.
 */
export async function recordLoads(
  context: Context,
  { agreementId, loads, key, confirmed }: LoadsToRecord,
): Promise<readonly RecordedLoad[]> {
  permit(context, 'record-load');
  const asked = { verb: 'record-load', subject: agreementId, key, input: loads };
  return await doOnce(context, asked, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    return await writeTickets(tx, context, { found, loads, confirmed });
  });
}

export interface TicketsToWrite extends Pick<LoadsToRecord, 'loads'> {
  readonly found: FoundAgreement;
  readonly confirmed: boolean | undefined;
}

/** Records tickets of an agreement that the caller may write to. Refuses as `recordLoads`. */
export async function writeTickets(
  tx: Transaction,
  context: Context,
  { found, loads, confirmed }: TicketsToWrite,
): Promise<readonly RecordedLoad[]> {
  const agreementId = found.row.id;
  const read = readTickets(found, loads);
  await lockAgreement(tx, agreementId);
  const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
  const tickets = read.map(({ ticket }) => ticket.ticket);
  const before = await readLoadsByTicket(tx, agreementId, tickets);
  const rows = read.map((of) => {
    const { recordedBy } = recorded;
    const id = context.newId();
    const row: LoadRow = { ...of.ticket, agreementId, id, version: 1, isVoid: false, recordedBy };
    return { ...of, row };
  });
  for (const { row } of rows) refuseOtherTicket(row, before.get(row.ticket));
  const fresh = rows.filter(({ row }) => !before.has(row.ticket));
  await refuseSpentTickets(tx, agreementId, tickets);
  await refuseOtherWeighing(
    tx,
    agreementId,
    fresh.map(({ row }) => row),
  );
  const closing = await readClosing(tx, agreementId);
  if (closing)
    refuseAfterClosing(
      fresh.map(({ row }) => row),
      closing,
    );
  refuseUnusual(await doubtTickets(tx, found, { tickets: fresh, now: context.now() }), confirmed);

  const sampleIds = await samplesNamed(tx, context, {
    names: fresh.flatMap(({ row }) => row.sample ?? []),
    recorded,
  });
  const written = fresh.map(({ row }) => ({
    ...row,
    sampleId: row.sample === null ? null : (sampleIds.get(row.sample) ?? null),
  }));
  await insertLoads(tx, written, recorded.recordedAt);
  const facts = fresh.map(
    ({ row, load }): Entering => ({
      kind: 'load',
      fact: loadFact(row),
      subjectId: row.id,
      postings: deliveryPostings(scaleWeight(load)),
    }),
  );
  await enterFacts(tx, facts, recorded);
  return rows.map(({ row }) => {
    const earlier = before.get(row.ticket);
    return { id: earlier?.id ?? row.id, ticket: row.ticket, isNew: earlier === undefined };
  });
}

export function refuseAfterClosing(loads: readonly TicketRow[], { lastDeliveryOn }: ClosingRow): void {
  const late = loads.find(({ deliveredOn }) => deliveredOn > lastDeliveryOn);
  if (!late) return;
  throw new Refusal(
    'agreement-closed',
    `Both sides closed this agreement for deliveries after ${lastDeliveryOn}; ticket ${late.ticket} was delivered on ${late.deliveredOn}.`,
  );
}

function refuseOtherTicket(row: LoadRow, before: LoadRow | undefined): void {
  if (!before || JSON.stringify(loadFact(row)) === JSON.stringify(loadFact(before))) return;
  throw new Refusal(
    'ticket-taken',
    `Ticket ${row.ticket} was recorded before, with gross ${before.gross} and tare ${before.tare} ${before.unit} on ${before.deliveredOn}. Give this load its own ticket, or leave the recorded one as it is.`,
  );
}
