/**
 * Ticket series, and numbers that no load will have: spoiled ones, and those used for something else. A weighing whose
 * number is spent is over.
 */

import { CONTROL_CHARACTER } from '../../domain/text/control-character.ts';
import { readSeriesRow, SERIES_COLUMNS, type TicketSeries, ticketOf } from '../../domain/tickets/series.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readLoadsByTicket } from '../../store/rows/load-rows.ts';
import {
  insertSeries,
  insertSpentTicket,
  readSeries,
  readSpentTickets,
  type TicketUse,
} from '../../store/rows/ticket-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { badInput, type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { spentInWords } from './refuse-spent.ts';
import { seriesFact, spentTicketFact } from './ticket-fact.ts';

export interface SeriesToRecord {
  readonly agreementId: string;
  /** `prefix`, and `first`: the digits of the first ticket as they are printed. */
  readonly series: InputRow;
  readonly key?: string;
}

/**
 * Returns the series' id; the same series again is not written again. Refuses `not-allowed`, `bad-input` (also for a
 * prefix that has a series already), `not-found`, `not-yours`.
 */
export async function recordSeries(
  context: Context,
  { agreementId, series, key }: SeriesToRecord,
): Promise<{ readonly seriesId: string }> {
  permit(context, 'keep-scale');
  const asked = { verb: 'record-series', subject: agreementId, key, input: series };
  return await doOnce(context, asked, async (tx) => {
    await findOwnAgreement(tx, context.caller, agreementId);
    const read = readSeriesOf(series);
    await lockAgreement(tx, agreementId);
    const earlier = (await readSeries(tx, agreementId)).find(({ prefix }) => prefix === read.prefix);
    if (earlier) {
      if (earlier.width === read.width && earlier.firstNumber === read.firstNumber)
        return { seriesId: earlier.id };
      const first = ticketOf(earlier, earlier.firstNumber);
      throw badInput([
        { row: 0, column: 'prefix', message: `has a series already, which begins with ticket ${first}` },
      ]);
    }
    const row = { ...read, id: context.newId() };
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    await insertSeries(tx, row, recorded);
    const fact = seriesFact(row);
    await enterFacts(tx, [{ kind: 'ticket-series', fact, subjectId: row.id, postings: [] }], recorded);
    return { seriesId: row.id };
  });
}

function readSeriesOf(series: InputRow): TicketSeries {
  const [read] = readInputRows([series], { shape: SERIES_COLUMNS, read: readSeriesRow, key: ['prefix'] });
  if (!read) throw new Error('A series that was read is not there');
  return read.found;
}

export interface TicketToSpend {
  readonly agreementId: string;
  readonly ticket: string;
  /** Spoiled, or a weighing that was nothing of this agreement's. */
  readonly use: TicketUse;
  readonly reason: string;
  readonly key?: string;
}

/**
 * Accounts for a number that no load has, and ends its weighing where one is open; the same again is not written again.
 * Refuses `not-allowed`, `bad-input`, `not-found`, `not-yours`, and `ticket-taken` where it is a load or was spent otherwise.
 */
export async function spendTicket(
  context: Context,
  { agreementId, ticket, use, reason, key }: TicketToSpend,
): Promise<{ readonly spentId: string }> {
  permit(context, 'record-load');
  const input = { ticket, use, reason };
  return await doOnce(context, { verb: 'spend-ticket', subject: agreementId, key, input }, async (tx) => {
    await findOwnAgreement(tx, context.caller, agreementId);
    const number = readTicketNumber(ticket);
    const why = readReason(reason);
    await lockAgreement(tx, agreementId);
    if ((await readLoadsByTicket(tx, agreementId, [number])).has(number)) {
      throw new Refusal('ticket-taken', `Ticket ${number} is a load. Void the load, and its number is void.`);
    }
    const [earlier] = await readSpentTickets(tx, agreementId, [number]);
    if (earlier) {
      if (earlier.use === use && earlier.reason === why) return { spentId: earlier.id };
      throw new Refusal('ticket-taken', spentInWords(earlier));
    }
    const row = { id: context.newId(), ticket: number, use, reason: why };
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    await insertSpentTicket(tx, row, recorded);
    const fact = spentTicketFact(row);
    await enterFacts(tx, [{ kind: 'spent-ticket', fact, subjectId: row.id, postings: [] }], recorded);
    return { spentId: row.id };
  });
}

function readTicketNumber(ticket: string): string {
  const number = ticket.trim();
  if (number === '') throw badInput([{ column: 'ticket', message: 'must not be empty' }]);
  if (CONTROL_CHARACTER.test(number)) throw badInput([{ column: 'ticket', message: 'must be plain text' }]);
  return number;
}
