/**
 * The reference price R of a load, and what it makes a pound of dry matter or of starch worth.
 */
import type { Reference } from '../agreement/document.ts';
import { add, decimal, divide, type Exact, larger, multiply, percent, smaller } from '../numbers/exact.ts';
import type { FoundQuote } from './find-quote.ts';

export interface ReferencePrice extends FoundQuote {
  /** R: the quote with the basis added, held within floor and ceiling; money per unit. */
  readonly price: Exact;
}

/** R = quote + basis, then held within floor and ceiling: 4.20 with basis −0.15 is 4.05. */
export function adjustQuote(found: FoundQuote, { basis, floor, ceiling }: Reference): ReferencePrice {
  let price = basis === undefined ? found.quote : add(found.quote, decimal(basis));
  if (floor !== undefined) price = larger(price, decimal(floor));
  if (ceiling !== undefined) price = smaller(price, decimal(ceiling));
  return { ...found, price };
}

/** Pounds of dry matter in one unit of the reference grain: a 56-lb bushel at 84.5 % holds 47.32. */
export function dryPoundsPerUnit(reference: Reference): Exact {
  return multiply(decimal(reference.poundsPerUnit), percent(decimal(reference.dryMatterPercent)));
}

/** Pounds of what a price is per (`dry-matter` or `starch`) in one unit of the reference grain. */
export function poundsPricedPerUnit(reference: Reference, per: 'dry-matter' | 'starch'): Exact {
  const dryPounds = dryPoundsPerUnit(reference);
  return per === 'dry-matter' ? dryPounds : multiply(dryPounds, starchShare(reference));
}

/** Starch in the reference grain, as a share of its dry matter. Throws where the reference does not say. */
export function starchShare(reference: Reference): Exact {
  if (reference.starchPercentOfDryMatter === undefined) throw new RangeError('The reference names no starch');
  return percent(decimal(reference.starchPercentOfDryMatter));
}

/** Money per pound of dry matter or of starch, for a price R: 4.05 a bushel is 0.0855874… per pound of dry matter. */
export function pricePerPound(price: Exact, reference: Reference, per: 'dry-matter' | 'starch'): Exact {
  return divide(price, poundsPricedPerUnit(reference, per));
}
