/**
 * What each thing that happens to money posts. All amounts come in minor units of one currency; every entry sums to nothing.
 */
import type { DocumentKind } from '../domain/money/money-document.ts';
import type { Allocated } from '../domain/money/standing.ts';
import { type Money, printAmount } from '../domain/settlement/line.ts';
import type { Account, Posting } from './accounts.ts';

export interface IssuedSums {
  readonly kind: DocumentKind;
  /** Of a note about a season as a whole. */
  readonly seasonRule?: string | undefined;
  /** What settlements bring to it, what is taken off, and of advances used up (below zero for advances given). */
  readonly goods: bigint;
  readonly deductions: bigint;
  readonly advances: bigint;
  readonly payable: bigint;
  /** Of a document below zero: how much of it lowers other documents. The rest is on account. */
  readonly allocated: bigint;
}

/** An invoice of 1,986.85 less 33.66: invoices +1,953.19, deductions +33.66, buyer-owes-seller −1,986.85. */
export function documentPostings(sums: IssuedSums, money: Money): Posting[] {
  const { goods, deductions, advances, payable, allocated } = sums;
  const isCredit = payable < 0n;
  // Interest, fees and adjustments of a season come from no settlement: they are the document's own.
  const own = payable - (goods - deductions - advances);
  return posted(money, [
    ['buyer-owes-seller', -goods],
    ['deductions', deductions],
    ['advances', advances],
    [ownAccount(sums), -own],
    ['invoices', isCredit ? -allocated : payable],
    ['on-account', isCredit ? payable + allocated : 0n],
  ]);
}

function ownAccount({ kind, seasonRule }: IssuedSums): Account {
  if (seasonRule !== undefined) return seasonRule === 'brought-forward' ? 'carried' : 'adjustments';
  return kind === 'fee' ? 'fees' : 'interest';
}

/** A confirmed payment; below zero, money that the seller gives back. */
export function paymentPostings(
  { amount, allocated }: { readonly amount: bigint; readonly allocated: readonly Allocated[] },
  money: Money,
): Posting[] {
  const taken = allocated.reduce((sum, part) => sum + part.amount, 0n);
  const saved = allocated.reduce((sum, part) => sum + part.discount, 0n);
  return posted(money, [
    ['paid', amount],
    ['invoices', -(taken + saved)],
    ['discounts', saved],
    ['on-account', taken - amount],
  ]);
}

/** Money on account that both sides agree to use for documents. */
export function setOffPostings(allocated: readonly Allocated[], money: Money): Posting[] {
  const taken = allocated.reduce((sum, { amount }) => sum + amount, 0n);
  return posted(money, [
    ['on-account', taken],
    ['invoices', -taken],
  ]);
}

/** An amount is held back; below zero, it is due again. */
export function holdPostings(amount: bigint, money: Money): Posting[] {
  return posted(money, [
    ['held', amount],
    ['invoices', -amount],
  ]);
}

function posted(money: Money, amounts: readonly (readonly [Account, bigint])[]): Posting[] {
  return amounts
    .filter(([, amount]) => amount !== 0n)
    .map(([account, amount]) => ({ account, unit: money.currency, amount: printAmount(amount, money) }));
}
