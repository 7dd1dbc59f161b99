/**
 * Between which figures a measure is looked at, and how finely: a season's usual range and half as much again on
 * either side. The ranges of measures beside dry matter, starch and NDF are common practice, without a source.
 */
import type { Feed, Tested } from '../agreement/measures.ts';
import {
  add,
  decimal,
  divide,
  type Exact,
  HUNDRED,
  larger,
  multiply,
  smaller,
  subtract,
  whole,
  ZERO,
} from '../numbers/exact.ts';
import { roundTo } from '../numbers/rounding.ts';
import { usualFeed } from './usual-figures.ts';

export interface SeenRange {
  readonly low: Exact;
  readonly high: Exact;
  /** The smallest difference that a report shows. */
  readonly finest: Exact;
  /** Ten of these. */
  readonly cell: Exact;
}

const HUNDREDTH = { finest: decimal('0.01'), cell: decimal('0.1') };
const TEN_MICROMETRES = { finest: whole(1), cell: whole(10) };

/** The range of a measure in a feed; its ends lie on whole cells. */
export function seenRange(feed: Feed, measure: Tested): SeenRange {
  const { range, figures } = usualFeed(feed);
  switch (measure) {
    case 'dry-matter':
    case 'starch':
    case 'ndf':
      return widened(range[measure]);
    case 'adf': {
      const part = divide(figures.get('adf') ?? ZERO, figures.get('ndf') ?? HUNDRED);
      return widened({ low: multiply(range.ndf.low, part), high: multiply(range.ndf.high, part) });
    }
    case 'crude-protein':
      return between('4', '14');
    case 'crude-fat':
      return between('1', '7');
    case 'ash':
      return between('0.5', '8');
    case 'ph':
      return between('3.4', '7');
    case 'ammonia-nitrogen':
      return between('0', '15');
    case 'aflatoxin':
      return between('0', '25');
    case 'vomitoxin':
      return between('0', '12');
    case 'particle-size': {
      const usual = figures.get('particle-size') ?? ZERO;
      return {
        low: roundTo(divide(usual, whole(3)), 0, 'half-up'),
        high: multiply(usual, whole(3)),
        ...TEN_MICROMETRES,
      };
    }
  }
}

function between(low: string, high: string): SeenRange {
  return { low: decimal(low), high: decimal(high), ...HUNDREDTH };
}

function widened({ low, high }: { readonly low: Exact; readonly high: Exact }): SeenRange {
  const half = divide(subtract(high, low), whole(2));
  return {
    low: roundTo(larger(subtract(low, half), ZERO), 1, 'half-up'),
    high: roundTo(smaller(add(high, half), HUNDRED), 1, 'half-up'),
    ...HUNDREDTH,
  };
}
