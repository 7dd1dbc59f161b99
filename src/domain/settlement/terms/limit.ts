/**
 * `limit`: the sum of the lines before it is held between a floor and a ceiling per quantity.
 */

import type { TermOf } from '../../agreement/document.ts';
import {
  compare,
  decimal,
  divide,
  type Exact,
  isZero,
  multiply,
  powerOfTen,
  ZERO,
} from '../../numbers/exact.ts';
import { printWritten, withMinus } from '../../numbers/printing.ts';
import { tell } from '../derivation.ts';
import { amountOf, type Line, type Money, printAmount } from '../line.ts';
import type { PricingContext } from '../measured-load.ts';
import { namePer, quantityPer, tellQuantityPer } from '../per-quantity.ts';

/** What brings the sum so far to the nearer limit, where it lies beyond one: rounded(limit × quantity) − sum. */
export function limitLine(term: TermOf<'limit'>, money: Money) {
  const floor = term.floor === undefined ? undefined : decimal(term.floor);
  const ceiling = term.ceiling === undefined ? undefined : decimal(term.ceiling);
  return ({ measured, before: sumBefore }: PricingContext): Line => {
    const quantity = quantityPer(term, measured);
    const before: Exact = { n: sumBefore, d: powerOfTen(money.decimals) };
    const below = floor !== undefined && compare(before, multiply(floor, quantity)) < 0;
    const above = ceiling !== undefined && compare(before, multiply(ceiling, quantity)) > 0;
    const limit = below ? floor : above ? ceiling : undefined;
    const amount = limit === undefined ? 0n : amountOf(quantity, limit, money) - sumBefore;
    const rate = isZero(quantity) ? ZERO : divide({ n: amount, d: before.d }, quantity);

    const how = () => {
      const sum = withMinus(printAmount(sumBefore, money));
      if (limit === undefined) return `${sum} ${money.currency} so far ${tellWithin(term)}: nothing to add`;
      const product = multiply(limit, quantity);
      const held = withMinus(printAmount(amount + sumBefore, money));
      return [
        `${tellQuantityPer(term, measured)} × ${printWritten((below ? term.floor : term.ceiling) ?? '')} = ${tell(product)} → ${held};`,
        `${sum} so far is ${below ? 'under the floor' : 'over the ceiling'}:`,
        `${held} − ${sum.startsWith('−') ? `(${sum})` : sum} = ${withMinus(printAmount(amount, money))} ${money.currency}`,
      ].join(' ');
    };
    return { label: term.label, quantity, unit: term.per, rate, amount, how };
  };
}

function tellWithin(term: TermOf<'limit'>): string {
  const ends = [
    ...(term.floor === undefined ? [] : [`not under the floor of ${printWritten(term.floor)}`]),
    ...(term.ceiling === undefined ? [] : [`not over the ceiling of ${printWritten(term.ceiling)}`]),
  ];
  return `is ${ends.join(' and ')} per ${namePer(term)}`;
}
