/**
 * How a lot stands at a moment, for everyone who sees it.
 */

export interface LotTimes {
  readonly state: 'draft' | 'posted' | 'withdrawn' | 'sold';
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly openUntil: number | null;
  /** While one side's signature stands under an offer on it. */
  readonly heldUntil: number | null;
}

/** `under-offer`: one side has signed an offer on it, and others may still bid. `over`: posted, and its last day is past. */
export type LotStanding = 'draft' | 'posted' | 'under-offer' | 'over' | 'withdrawn' | 'sold';

export function lotStanding({ state, openUntil, heldUntil }: LotTimes, now: number): LotStanding {
  if (state !== 'posted') return state;
  if (openUntil === null || openUntil <= now) return 'over';
  return heldUntil !== null && heldUntil > now ? 'under-offer' : 'posted';
}

/** Whether offers may be made on it. */
export function isOpen(standing: LotStanding): boolean {
  return standing === 'posted' || standing === 'under-offer';
}
