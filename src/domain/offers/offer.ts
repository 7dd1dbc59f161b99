/**
 * What an offer is about, how it can end, and how it stands at a moment.
 */

export const PURPOSES = ['agreement', 'amendment', 'closing'] as const;
export type Purpose = (typeof PURPOSES)[number];

export const ENDINGS = ['withdrawn', 'declined', 'agreed', 'lot-sold', 'lot-withdrawn'] as const;
export type Ending = (typeof ENDINGS)[number];

/** Longest that an offer may stand, in days. */
export const MOST_DAYS = 90;
export const LONGEST_MESSAGE = 1_000;
export const DAY_MS = 86_400_000;

export interface OfferTimes {
  readonly ending: Ending | null;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly validUntil: number;
}

/** Open, or how it ended; `lapsed` where nobody ended it and its time is over. A new version opens it again. */
export type OfferState = 'open' | 'lapsed' | Ending;

export function offerState({ ending, validUntil }: OfferTimes, now: number): OfferState {
  if (ending !== null) return ending;
  return validUntil > now ? 'open' : 'lapsed';
}
