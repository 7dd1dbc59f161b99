/**
 * What two parties settle about a public price series: where it is published, who enters its quotes, and for how many
 * days the other side may contest one. A side gives its own rights away, and never takes the other's.
 */
import type { Instant } from '../dates/instant.ts';

export const ENTERERS = ['both', 'seller', 'buyer'] as const;
/** Which side enters quotes. */
export type Enterer = (typeof ENTERERS)[number];
export type Side = 'seller' | 'buyer';

export interface SeriesTerms {
  /** Where the price is published, in words. */
  readonly source: string;
  readonly enteredBy: Enterer;
  /** Days after its entry for which the side that does not enter may contest a quote. */
  readonly contestDays: number;
}

/** What holds while nothing was settled: either side enters quotes, and either puts them right. */
export const NO_TERMS: SeriesTerms = { source: '', enteredBy: 'both', contestDays: 0 };

export const MOST_CONTEST_DAYS = 999;
const DAY = 86_400_000;

/** Whether a side enters quotes of a series, and puts them right while nothing has settled from them. */
export function mayEnter({ enteredBy }: SeriesTerms, side: Side): boolean {
  return enteredBy === 'both' || enteredBy === side;
}

export function otherSide(side: Side): Side {
  return side === 'seller' ? 'buyer' : 'seller';
}

/** What of a change is not for this side alone to make; none where it only gives away what is its own. */
export function takesFromOther(
  before: SeriesTerms,
  after: SeriesTerms,
  side: Side,
): 'entering' | 'days' | undefined {
  const other = otherSide(side);
  const isTaken = mayEnter(before, other) && !mayEnter(after, other);
  const isAdded = !mayEnter(before, side) && mayEnter(after, side);
  if (isTaken || isAdded) return 'entering';
  if (after.enteredBy === 'both' || before.enteredBy !== after.enteredBy) return undefined;
  // The days are the right of the side that does not enter.
  const isFewer = after.contestDays < before.contestDays;
  const isMore = after.contestDays > before.contestDays;
  return (mayEnter(after, side) ? isFewer : isMore) ? 'days' : undefined;
}

/** The moment until which a quote may be contested. */
export function contestedUntil({ contestDays }: SeriesTerms, enteredAt: Instant): Instant {
  return enteredAt + contestDays * DAY;
}
