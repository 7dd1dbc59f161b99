/**
 * Which agreement was the last season: the same two parties', for the same feed, over before this one began.
 */

import type { LocalDate } from '../dates/local-date.ts';
import { isSamePair } from '../parties/same-pair.ts';

/** An agreement with the days of its first and its last delivery; undefined where nothing came. */
export interface SeasonSpan {
  readonly id: string;
  readonly sellerId: string;
  readonly buyerId: string;
  readonly feed: string;
  readonly first: LocalDate | undefined;
  readonly last: LocalDate | undefined;
}

/**
 * Of those whose last delivery was before this one's first, the one that ended latest; of several that ended on one day,
 * that which began latest. Undefined where there is none, or nothing has come under this one.
 */
export function lastSeason<Span extends SeasonSpan>(
  current: SeasonSpan,
  others: readonly Span[],
): Span | undefined {
  const { first } = current;
  if (first === undefined) return undefined;
  return others
    .filter(
      (other) =>
        other.id !== current.id &&
        isSamePair(other, current) &&
        other.feed === current.feed &&
        other.last !== undefined &&
        other.last < first,
    )
    .toSorted((a, b) => order(b.last, a.last) || order(b.first, a.first) || order(b.id, a.id))[0];
}

function order(a: string | undefined, b: string | undefined): number {
  const [one, other] = [a ?? '', b ?? ''];
  return one < other ? -1 : Number(one > other);
}
