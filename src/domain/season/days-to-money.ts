/**
 * From delivery to money: days until a load had its price, until it stood on an invoice, and until it was paid. All days
 * are local dates of the agreement; amounts are whole minor units.
 */
import { daysBetween, type LocalDate } from '../dates/local-date.ts';
import { type Exact, whole } from '../numbers/exact.ts';
import { shareOut } from '../numbers/share-out.ts';
import { spreadOf } from '../progress/spread.ts';

/** A settled load: when it came, when its price first stood, and when it first was on an invoice, if it was. */
export interface LoadDays {
  readonly loadId: string;
  readonly ticket: string;
  readonly deliveredOn: LocalDate;
  readonly settledOn: LocalDate;
  readonly invoicedOn: LocalDate | undefined;
}

/** What asks for money for feed: an invoice, an advance, a debit note. */
export interface PayableDocument {
  readonly id: string;
  /** Still to be paid, what is held included. */
  readonly open: bigint;
  /** Of it, what is questioned. */
  readonly held: bigint;
  /** What each load brings to it; the part of one that lowers it counts for nothing here. */
  readonly loads: readonly { readonly deliveredOn: LocalDate; readonly amount: bigint }[];
}

/** Money that was used for a document: paid, or set off against it. */
export interface MoneyUsed {
  readonly documentId: string;
  readonly on: LocalDate;
  readonly amount: bigint;
}

export interface Wait {
  readonly loads: number;
  /** Days; the mean of the two in the middle where they are even in number. */
  readonly median: Exact;
  readonly longest: number;
  /** The ticket that waited longest, the first delivered of several. */
  readonly longestTicket: string;
}

export interface WaitForMoney {
  /** Minor units that came. */
  readonly paid: bigint;
  /** Days within which half of the money had come; undefined where none has. */
  readonly median: number | undefined;
  /** Days that the last of it took. */
  readonly longest: number | undefined;
  /** Not paid yet, and no part of the days. */
  readonly unpaid: { readonly documents: number; readonly open: bigint; readonly held: bigint };
}

export interface DaysToMoney {
  readonly settlement: Wait | undefined;
  readonly invoice: Wait | undefined;
  /** Settled loads that are on no invoice. */
  readonly notInvoiced: number;
  readonly money: WaitForMoney;
}

/** Days until the price stood and until the invoice: each load counts once. */
export function daysOfLoads(
  loads: readonly LoadDays[],
): Pick<DaysToMoney, 'settlement' | 'invoice' | 'notInvoiced'> {
  const invoiced = loads.flatMap(({ ticket, deliveredOn, invoicedOn }) =>
    invoicedOn === undefined ? [] : [{ ticket, days: daysBetween(deliveredOn, invoicedOn) }],
  );
  return {
    settlement: waitOf(
      loads.map(({ ticket, deliveredOn, settledOn }) => ({
        ticket,
        days: daysBetween(deliveredOn, settledOn),
      })),
    ),
    invoice: waitOf(invoiced),
    notInvoiced: loads.length - invoiced.length,
  };
}

function waitOf(waits: readonly { readonly ticket: string; readonly days: number }[]): Wait | undefined {
  const spread = spreadOf(waits.map(({ days }) => whole(days)));
  if (!spread) return undefined;
  const longest = waits.reduce((most, one) => (one.days > most.days ? one : most));
  return {
    loads: waits.length,
    median: spread.median,
    longest: longest.days,
    longestTicket: longest.ticket,
  };
}

/**
 * Days until the money came, each minor unit counted once: what is used for a document is for its loads in proportion to
 * what they bring to it. 100.00 after 10 days and 300.00 after 30 are 30 days at the median.
 */
export function daysOfMoney(documents: readonly PayableDocument[], used: readonly MoneyUsed[]): WaitForMoney {
  const byId = new Map(documents.map((document) => [document.id, document]));
  const byDays = new Map<number, bigint>();
  let paid = 0n;
  for (const { documentId, on, amount } of used) {
    const loads = byId.get(documentId)?.loads.filter((load) => load.amount > 0n) ?? [];
    if (amount <= 0n || loads.length === 0) continue;
    paid += amount;
    const shares = shareOut(
      amount,
      loads.map((load) => load.amount),
    );
    for (const [index, { deliveredOn }] of loads.entries()) {
      const days = daysBetween(deliveredOn, on);
      byDays.set(days, (byDays.get(days) ?? 0n) + (shares[index] ?? 0n));
    }
  }
  const inOrder = [...byDays].filter(([, part]) => part > 0n).sort(([a], [b]) => a - b);
  const unpaid = documents.filter(({ open }) => open > 0n);
  return {
    paid,
    median: halfway(inOrder, paid),
    longest: inOrder.at(-1)?.[0],
    unpaid: {
      documents: unpaid.length,
      open: unpaid.reduce((sum, { open }) => sum + open, 0n),
      held: unpaid.reduce((sum, { held }) => sum + held, 0n),
    },
  };
}

/** The first number of days by which at least half had come. */
function halfway(inOrder: readonly (readonly [number, bigint])[], paid: bigint): number | undefined {
  let come = 0n;
  for (const [days, part] of inOrder) {
    come += part;
    if (2n * come >= paid) return days;
  }
  return undefined;
}
