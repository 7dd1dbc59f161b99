/**
 * Records the pricing dates that the seller names for loads.
 */
import { electionWindows } from '../../domain/prices/election-windows.ts';
import { readElectionRow } from '../../domain/tables/other-rows.ts';
import { ELECTIONS } from '../../domain/tables/table-shape.ts';
import type { Entering } from '../../journal/chain.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readLoadsByTicket } from '../../store/rows/load-rows.ts';
import { type ElectionRow, insertElections, readElections } from '../../store/rows/quote-rows.ts';
import { findOwnAgreement, termsOn } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseSettled } from '../settlements/refuse-settled.ts';
import { seriesNamed } from './record-quotes.ts';

export interface ElectionsToRecord {
  readonly agreementId: string;
  /** With the columns of `elections.csv`. */
  readonly elections: readonly InputRow[];
  readonly key?: string;
}

/**
 * Returns how many elections are new.
 * Refuses `not-allowed`, `bad-input`, `not-found` (a ticket that was not recorded), `not-yours` where the caller's party
 * is not the seller, `election-taken` where another date was named before, `already-settled` where the load
 * is settled.
 */
export async function recordElections(
  context: Context,
  { agreementId, elections, key }: ElectionsToRecord,
): Promise<{ readonly recorded: number }> {
  permit(context, 'record-election');
  const asked = { verb: 'record-election', subject: agreementId, key, input: elections };
  return await doOnce(context, asked, async (tx) => {
    const of = await findOwnAgreement(tx, context.caller, agreementId);
    const named = elections.flatMap(({ ticket }) => ticket?.trim() || []);
    const loads = await readLoadsByTicket(tx, agreementId, named);
    // A load's window is that of the version it was delivered under.
    const windowsOf = (ticket: string) =>
      electionWindows(termsOn(of, loads.get(ticket)?.deliveredOn ?? '').agreement);
    const read = readInputRows(elections, {
      shape: ELECTIONS,
      read: (row) => readElectionRow(row, windowsOf(row.text('ticket'))),
      key: ['ticket', 'series'],
    });
    if (read.length > 0 && of.row.sellerId !== context.caller.partyId) {
      throw new Refusal('not-yours', `Only ${of.row.sellerName}, the seller, names pricing dates.`);
    }
    await lockAgreement(tx, agreementId);
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    const seriesIds = await seriesNamed(
      tx,
      read.map(({ found }) => found.series),
      { agreementId, newId: context.newId },
    );
    const rows = read.map(({ found: { ticket, series, date } }): ElectionRow => {
      const load = loads.get(ticket);
      if (!load) throw new Refusal('not-found', `There is no load with ticket ${ticket}.`);
      return {
        id: context.newId(),
        loadId: load.id,
        ticket,
        seriesId: seriesIds.get(series) ?? '',
        series,
        date,
      };
    });
    const ids = rows.map(({ loadId }) => loadId);
    const before = new Map((await readElections(tx, agreementId, ids)).map((row) => [keyOf(row), row]));
    for (const row of rows) refuseOtherDate(row, before.get(keyOf(row)));
    const fresh = rows.filter((row) => !before.has(keyOf(row)));
    await refuseSettled(tx, agreementId, fresh);
    await insertElections(tx, fresh, recorded);
    const facts = fresh.map(
      ({ id, loadId, series, date }): Entering => ({
        kind: 'election',
        fact: { load: loadId, series, date },
        subjectId: id,
        postings: [],
      }),
    );
    await enterFacts(tx, facts, recorded);
    return { recorded: fresh.length };
  });
}

function keyOf({ loadId, seriesId }: ElectionRow): string {
  return `${loadId} ${seriesId}`;
}

function refuseOtherDate(row: ElectionRow, before: ElectionRow | undefined): void {
  if (!before || before.date === row.date) return;
  throw new Refusal(
    'election-taken',
    `For load ${row.ticket} the date ${before.date} was named before; a named date stands.`,
  );
}
