/**
 * The book of an agreement's tickets: what became of each number of its series, which are missing, and which comes next.
 */
import { gapsOf, nextNumber, numberOf, type TicketSeries, ticketOf } from '../../domain/tickets/series.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readSeries, readSpentTickets, readUsedTickets } from '../../store/rows/ticket-rows.ts';
import { readWeighings } from '../../store/rows/weighing-rows.ts';
import { findAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';

export interface TicketEntry {
  readonly ticket: string;
  readonly use: 'load' | 'void' | 'elsewhere' | 'weighing';
  /** The load, where it is or was one. */
  readonly loadId: string | null;
  /** Why it is void or was used elsewhere. */
  readonly reason: string | null;
}

/** Numbers side by side that nothing accounts for, both ends included. */
export interface MissingTickets {
  readonly from: string;
  readonly to: string;
  readonly count: number;
}

export interface SeriesBook {
  readonly prefix: string;
  /** The first ticket, and the one that comes next. */
  readonly first: string;
  readonly next: string;
  /** By number. */
  readonly entries: readonly TicketEntry[];
  readonly missing: readonly MissingTickets[];
}

export interface TicketBook {
  readonly series: readonly SeriesBook[];
  /** Tickets of no series. */
  readonly others: readonly TicketEntry[];
}

/** Refuses `not-allowed`, `not-found`. */
export async function readTicketBook(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<TicketBook> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    await findAgreement(tx, agreementId);
    const entries = await entriesOf(tx, agreementId);
    const series = await readSeries(tx, agreementId);
    return {
      series: series.map((of) => bookOf(of, entries)),
      others: entries.filter(({ ticket }) => series.every((of) => numberOf(of, ticket) === undefined)),
    };
  });
}

/** The next ticket of the series that was weighed last; null where there is none. Refuses `not-allowed`, `not-found`. */
export async function nextTicket(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<string | null> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    await findAgreement(tx, agreementId);
    return await nextTicketOf(tx, agreementId);
  });
}

export async function nextTicketOf(tx: Transaction, agreementId: string): Promise<string | null> {
  const series = await readSeries(tx, agreementId);
  if (series.length === 0) return null;
  const entries = await entriesOf(tx, agreementId);
  const last = entries.findLast(({ ticket }) => series.some((of) => numberOf(of, ticket) !== undefined));
  const current = series.find((of) => last && numberOf(of, last.ticket) !== undefined) ?? series.at(-1);
  if (!current) return null;
  const used = entries.flatMap(({ ticket }) => numberOf(current, ticket) ?? []);
  return ticketOf(current, nextNumber(current, used));
}

/** Every number that is accounted for: spent ones first, then weighings, each as it was weighed. */
async function entriesOf(tx: Transaction, agreementId: string): Promise<readonly TicketEntry[]> {
  const spent = await readSpentTickets(tx, agreementId);
  const used = await readUsedTickets(tx, agreementId);
  const open = (await readWeighings(tx, agreementId)).filter(({ isOpen }) => isOpen);
  const weighed = [
    ...used.map(({ ticket, loadId, isVoid, reason, deliveredAt }) => ({
      at: deliveredAt,
      entry: { ticket, loadId, use: isVoid ? 'void' : 'load', reason: isVoid ? reason : null } as const,
    })),
    ...open.map(({ ticket, weighedAt }) => ({
      at: weighedAt,
      entry: { ticket, loadId: null, use: 'weighing', reason: null } as const,
    })),
  ].sort((a, b) => a.at - b.at);
  return [
    ...spent.map(({ ticket, use, reason }) => ({ ticket, loadId: null, use, reason })),
    ...weighed.map(({ entry }) => entry),
  ];
}

function bookOf(series: TicketSeries, entries: readonly TicketEntry[]): SeriesBook {
  const numbered = entries
    .flatMap((entry) => {
      const number = numberOf(series, entry.ticket);
      return number === undefined ? [] : [{ number, entry }];
    })
    .sort((a, b) => a.number - b.number);
  const used = numbered.map(({ number }) => number);
  return {
    prefix: series.prefix,
    first: ticketOf(series, series.firstNumber),
    next: ticketOf(series, nextNumber(series, used)),
    entries: numbered.map(({ entry }) => entry),
    missing: gapsOf(series, used).map(({ from, to }) => ({
      from: ticketOf(series, from),
      to: ticketOf(series, to),
      count: to - from + 1,
    })),
  };
}
