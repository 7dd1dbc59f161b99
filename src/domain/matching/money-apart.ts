/**
 * By how much the money of two lists' rows lies apart, as a note about the difference says it.
 */
import { decimal, subtract, ZERO } from '../numbers/exact.ts';
import { printFixed } from '../numbers/printing.ts';
import type { ListRow } from './list-row.ts';
import type { Outcome } from './match-lists.ts';

/**
 * How much more the own list's row comes to than the other's, with the currency's decimals: "80.00", "-12.50". A row that the
 * other list lacks counts in full; amounts that a list does not give are taken to be the same.
 */
export function moneyApart(outcome: Outcome, decimals: number): string {
  const amountOf = (row: ListRow) => (row.amount === null ? ZERO : decimal(row.amount));
  if (outcome.kind === 'pair') {
    const { mine, record } = outcome;
    const isKnown = mine.amount !== null && record.amount !== null;
    return printFixed(isKnown ? subtract(amountOf(mine), amountOf(record)) : ZERO, decimals);
  }
  const amount = amountOf(outcome.row);
  return printFixed(outcome.in === 'mine' ? amount : subtract(ZERO, amount), decimals);
}
