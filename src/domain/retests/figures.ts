/**
 * The figures of a retest, and what can be said of a few of them: mean, median, range, the nearer pair. All exact.
 */
import { add, compare, divide, type Exact, subtract, whole, ZERO } from '../numbers/exact.ts';
import { type Rounding, roundTo } from '../numbers/rounding.ts';

/**
 * Who tested: the laboratory whose figure is questioned, a laboratory that one side chose, the referee; or a second scale.
 */
export const TESTERS = ['laboratory', 'seller', 'buyer', 'referee', 'second-scale'] as const;
export type Tester = (typeof TESTERS)[number];

export interface RetestFigure {
  readonly from: Tester;
  /** A decimal as it was reported. */
  readonly value: Exact;
  /** Decimals that it was reported with. */
  readonly decimals: number;
}

/** Decimals that a figure was written with: 2 of "54.20". */
export function decimalsWritten(text: string): number {
  return text.split('.')[1]?.length ?? 0;
}

/** The mean. Throws on an empty list. */
export function meanOf(values: readonly Exact[]): Exact {
  return divide(values.reduce(add, ZERO), whole(values.length));
}

/** The middle one, or the mean of the two in the middle. Throws on an empty list. */
export function medianOf(values: readonly Exact[]): Exact {
  const sorted = values.toSorted(compare);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1
    ? meanOf(sorted.slice(half, half + 1))
    : meanOf(sorted.slice(half - 1, half + 1));
}

/** The largest less the smallest. */
export function rangeOf(values: readonly Exact[]): Exact {
  const sorted = values.toSorted(compare);
  const [least, most] = [sorted.at(0), sorted.at(-1)];
  return least && most ? subtract(most, least) : ZERO;
}

/** Of three figures: the mean of the two that lie nearer to each other; undefined where both pairs are equally near. */
export function meanOfNearerPair(values: readonly Exact[]): Exact | undefined {
  const [low = ZERO, middle = ZERO, high = ZERO] = values.toSorted(compare);
  const below = subtract(middle, low);
  const above = subtract(high, middle);
  const order = compare(below, above);
  if (order === 0) return undefined;
  return order < 0 ? meanOf([low, middle]) : meanOf([middle, high]);
}

/** |a − b|. */
export function distance(a: Exact, b: Exact): Exact {
  return rangeOf([a, b]);
}

/** A decided figure with the decimals of the most precise one that went in, by the agreement's rule. */
export function asDecided(value: Exact, from: readonly RetestFigure[], rounding: Rounding): Exact {
  return roundTo(value, Math.max(0, ...from.map(({ decimals }) => decimals)), rounding);
}
