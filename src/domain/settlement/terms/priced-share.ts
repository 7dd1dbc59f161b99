/**
 * `constituent` and `remainder`: pounds of a part of the dry matter, at a price per pound that follows a reference.
 */

import type { Reference, TermOf } from '../../agreement/document.ts';
import { decimal, type Exact, multiply, ONE, percent, subtract } from '../../numbers/exact.ts';
import { printWritten } from '../../numbers/printing.ts';
import { pricePerPound } from '../../prices/reference-price.ts';
import { tell, tellDryPounds, tellEnd, tellPart, tellShare } from '../derivation.ts';
import { amountOf, type Line, type Money } from '../line.ts';
import { type MeasuredLoad, needed, type PricingContext } from '../measured-load.ts';
import { shareOfPart } from '../parts.ts';

type PricedShareTerm = TermOf<'constituent'> | TermOf<'remainder'>;

/** W · D · c(of) · unit price · share. */
export function constituentLine(term: TermOf<'constituent'>, reference: Reference, money: Money) {
  return pricedLine(term, {
    reference,
    money,
    part: ({ figures }) => shareOfPart(figures, term.of, reference),
    tellPart: (measured) => tellPart(measured, term.of, reference),
  });
}

/** W · D · (1 − Σ c(x) for x in `after`) · unit price · share. */
export function remainderLine(term: TermOf<'remainder'>, reference: Reference, money: Money) {
  return pricedLine(term, {
    reference,
    money,
    part: ({ figures }) => remainderShare(term, reference, figures),
    tellPart: (measured) =>
      `(${['100 %', ...term.after.map((part) => tellPart(measured, part, reference))].join(' − ')})`,
  });
}

/** What is left of the dry matter after the parts of `after`; below zero where the figures cannot be right. */
export function remainderShare(
  term: TermOf<'remainder'>,
  reference: Reference,
  figures: MeasuredLoad['figures'],
): Exact {
  return term.after.reduce((left, part) => subtract(left, shareOfPart(figures, part, reference)), ONE);
}

interface Priced {
  readonly reference: Reference;
  readonly money: Money;
  readonly part: (measured: MeasuredLoad) => Exact;
  readonly tellPart: (measured: MeasuredLoad) => string;
}

function pricedLine(term: PricedShareTerm, { reference, money, part, tellPart }: Priced) {
  const share = percent(decimal(term.sharePercent ?? '100'));
  const perPound = multiply(pricePerPound(ONE, reference, term.at.per), share);
  const divisor = `÷ ${printWritten(reference.poundsPerUnit)} ÷ ${printWritten(reference.dryMatterPercent)} %${
    term.at.per === 'starch' ? ` ÷ ${printWritten(reference.starchPercentOfDryMatter ?? '')} %` : ''
  }`;
  return ({ measured, prices }: PricingContext): Line => {
    const { price } = needed(prices.get(term.at.reference), 'price');
    const quantity = multiply(needed(measured.dryPounds, 'dry matter'), part(measured));
    const rate = multiply(price, perPound);
    const amount = amountOf(quantity, rate, money);
    const how = () =>
      [
        `${tellDryPounds(measured)} × ${tellPart(measured)} × ${tell(price)} ${divisor}${tellShare(term.sharePercent)}`,
        tellEnd(multiply(quantity, rate), amount, money),
      ].join(' ');
    return { label: term.label, quantity, unit: 'lb', rate, amount, how };
  };
}
