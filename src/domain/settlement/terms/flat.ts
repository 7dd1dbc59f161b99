/**
 * `flat`: a rate per weight, load or distance.
 */

import type { TermOf } from '../../agreement/document.ts';
import { decimal, multiply } from '../../numbers/exact.ts';
import { printWritten } from '../../numbers/printing.ts';
import { tellEnd } from '../derivation.ts';
import { amountOf, type Line, type Money } from '../line.ts';
import type { PricingContext } from '../measured-load.ts';
import { quantityPer, tellQuantityPer } from '../per-quantity.ts';

/** Quantity × rate: 23.56 short tons at −4.25 is −100.13. */
export function flatLine(term: TermOf<'flat'>, money: Money) {
  const rate = decimal(term.rate);
  return ({ measured }: PricingContext): Line => {
    const quantity = quantityPer(term, measured);
    const amount = amountOf(quantity, rate, money);
    const how = () =>
      `${tellQuantityPer(term, measured)} × ${printWritten(term.rate)} ${tellEnd(multiply(quantity, rate), amount, money)}`;
    return { label: term.label, quantity, unit: term.per, rate, amount, how };
  };
}
