/**
 * Parts of the dry matter as a fraction of it: c(x).
 */
import type { Reference } from '../agreement/document.ts';
import type { Measure, Part } from '../agreement/measures.ts';
import { compare, divide, type Exact, ONE, percent } from '../numbers/exact.ts';
import { starchShare } from '../prices/reference-price.ts';
import { needed, type UsedFigures } from './measured-load.ts';

/** The figure that a part is worked out from. */
export function measureOfPart(part: Part): Measure {
  return part === 'grain-equivalent' ? 'starch' : part;
}

/**
 * c(part): 1 for dry matter, a constituent's percent over 100, and for the grain-equivalent starch over the starch
 * of the reference grain, at most 1: 54 % starch against grain of 71 % is 54 ÷ 71.
 */
export function shareOfPart(figures: UsedFigures, part: Part, reference: Reference): Exact {
  if (part === 'dry-matter') return ONE;
  const measure = measureOfPart(part);
  const share = percent(needed(figures[measure], measure));
  if (part !== 'grain-equivalent') return share;
  const grain = divide(share, starchShare(reference));
  return compare(grain, ONE) > 0 ? ONE : grain;
}
