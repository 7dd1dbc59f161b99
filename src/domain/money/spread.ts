/**
 * How money is spread over open documents: the oldest first, in proportion, or as somebody says. What is held is not due
 * and takes nothing; what finds no document stays on account.
 */

import type { LocalDate } from '../dates/local-date.ts';
import { decimal, type Exact, multiply, percent } from '../numbers/exact.ts';
import { roundToUnits } from '../numbers/rounding.ts';
import { shareOut } from '../numbers/share-out.ts';
import type { Money } from '../settlement/line.ts';
import { daysAfter } from './due-date.ts';
import type { Allocated, StandingDocument } from './standing.ts';

export const SPREADS = ['oldest-first', 'in-proportion', 'as-said'] as const;

/** What whoever pays says of it; amounts in minor units, by document. */
export type Spread =
  | { readonly kind: 'oldest-first' | 'in-proportion' }
  | {
      readonly kind: 'as-said';
      readonly parts: readonly { readonly documentId: string; readonly amount: bigint }[];
    };

export interface DiscountRule {
  readonly percent: string;
  readonly withinDays: string;
}

/** What is paid, when, and what it may earn. */
export interface ToSpread {
  /** Minor units, above zero. */
  readonly amount: bigint;
  readonly paidOn: LocalDate;
  /** For paying early; undefined for money that was not paid in. */
  readonly discount: DiscountRule | undefined;
  readonly money: Money;
}

/** What a document can take: what is due of it, and the discount that it earns when it is paid in full. */
interface Taker {
  readonly id: string;
  readonly due: bigint;
  readonly discount: bigint;
}

/**
 * The allocations, in the order in which documents were served; each is above zero, and together they are at most the
 * amount. 100.00 over three equal invoices in proportion is 33.34, 33.33 and 33.33.
 */
export function spreadOver(
  documents: readonly StandingDocument[],
  spread: Spread,
  paid: ToSpread,
): readonly Allocated[] {
  const takers = documents
    .filter(({ open, held }) => open - held > 0n)
    .sort((a, b) => (a.dueOn === b.dueOn ? a.serial - b.serial : a.dueOn < b.dueOn ? -1 : 1))
    .map(
      (document): Taker => ({
        id: document.id,
        due: document.open - document.held,
        discount: earlyDiscount(document, paid),
      }),
    );
  switch (spread.kind) {
    case 'oldest-first':
      return inTurn(
        takers.map((taker) => ({ taker, wanted: taker.due })),
        paid.amount,
      );
    case 'in-proportion':
      return inProportion(takers, paid.amount);
    case 'as-said': {
      const byId = new Map(takers.map((taker) => [taker.id, taker]));
      return inTurn(
        spread.parts.flatMap(({ documentId, amount }) => {
          const taker = byId.get(documentId);
          return taker ? [{ taker, wanted: amount }] : [];
        }),
        paid.amount,
      );
    }
  }
}

/** Serves documents one after another, each at most what is wanted for it. */
function inTurn(
  wants: readonly { readonly taker: Taker; readonly wanted: bigint }[],
  amount: bigint,
): readonly Allocated[] {
  let left = amount;
  return wants.flatMap(({ taker: { id, due, discount }, wanted }): Allocated[] => {
    const given = lesser(left, lesser(wanted, due));
    const [taken, saved] = given >= due - discount ? [due - discount, discount] : [given, 0n];
    left -= taken;
    return taken + saved > 0n ? [{ documentId: id, amount: taken, discount: saved }] : [];
  });
}

function inProportion(takers: readonly Taker[], amount: bigint): readonly Allocated[] {
  const sum = takers.reduce((total, { due, discount }) => total + due - discount, 0n);
  // Enough for all is enough for each one's discount.
  if (amount >= sum)
    return inTurn(
      takers.map((taker) => ({ taker, wanted: taker.due })),
      amount,
    );
  const shares = shareOut(
    amount,
    takers.map(({ due, discount }) => due - discount),
  );
  return takers.flatMap(({ id }, index): Allocated[] => {
    const share = shares[index] ?? 0n;
    return share > 0n ? [{ documentId: id, amount: share, discount: 0n }] : [];
  });
}

/**
 * The discount of an invoice that nobody questions, where a payment in full comes in time; rounded once. 2 % of 1,100.00
 * within 10 days is 22.00.
 */
export function earlyDiscount(
  document: StandingDocument,
  { paidOn, discount, money }: Omit<ToSpread, 'amount'>,
): bigint {
  if (!discount || document.kind !== 'invoice' || document.held > 0n) return 0n;
  if (paidOn > daysAfter(document.issuedOn, Number(discount.withinDays))) return 0n;
  const owed: Exact = { n: document.payable - document.credited, d: 1n };
  const saved = roundToUnits(multiply(owed, percent(decimal(discount.percent))), 0, money.rounding);
  return saved < document.open ? saved : 0n;
}

function lesser(a: bigint, b: bigint): bigint {
  if (a < b) return a;
  return b;
}
