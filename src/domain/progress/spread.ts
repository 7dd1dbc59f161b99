/**
 * How figures lie: weighted means, and the spread from the least to the greatest. Exact fractions all through.
 */
import {
  add,
  compare,
  divide,
  type Exact,
  floor,
  isZero,
  multiply,
  ratio,
  subtract,
  whole,
} from '../numbers/exact.ts';
import { RunningSum } from '../numbers/running-sum.ts';

/** A figure and how much it counts for. */
export interface Weighted {
  readonly value: Exact;
  readonly weight: Exact;
}

/**
 * Sum of weight × value over the sum of the weights; undefined where nothing weighs. 70 % starch in 28,800 lb of dry
 * matter and 74 % in 13,000 lb are 71.244… %, where the plain mean is 72.
 */
export function weightedMean(figures: readonly Weighted[]): Exact | undefined {
  const [sum, weights] = [new RunningSum(), new RunningSum()];
  for (const { value, weight } of figures) {
    sum.add(multiply(value, weight));
    weights.add(weight);
  }
  const weight = weights.value();
  return isZero(weight) ? undefined : divide(sum.value(), weight);
}

export interface Spread {
  readonly count: number;
  readonly least: Exact;
  readonly lowerQuartile: Exact;
  readonly median: Exact;
  readonly upperQuartile: Exact;
  readonly greatest: Exact;
}

/** Least, quartiles and greatest; undefined of no figures. */
export function spreadOf(figures: readonly Exact[]): Spread | undefined {
  const sorted = figures.toSorted(compare);
  const [least, greatest] = [sorted[0], sorted.at(-1)];
  if (!least || !greatest) return undefined;
  return {
    count: sorted.length,
    least,
    lowerQuartile: percentile(sorted, ratio(1n, 4n)),
    median: percentile(sorted, ratio(1n, 2n)),
    upperQuartile: percentile(sorted, ratio(3n, 4n)),
    greatest,
  };
}

/**
 * The figure below which a share p of them lies: of n in rising order that at place p · (n + 1), between neighbours by
 * their distance, never outside of them (NIST/SEMATECH e-Handbook of Statistical Methods 7.2.6.2; from memory).
 * Throws where there are none.
 */
export function percentile(sorted: readonly Exact[], share: Exact): Exact {
  const place = multiply(share, whole(sorted.length + 1));
  const below = Number(floor(place));
  const [lower, upper] = [
    sorted[Math.max(0, below - 1)],
    sorted[Math.min(sorted.length - 1, Math.max(0, below))],
  ];
  if (!lower || !upper) throw new RangeError('There is no percentile of no figures');
  if (below < 1 || below >= sorted.length) return below < 1 ? lower : upper;
  return add(lower, multiply(subtract(place, whole(below)), subtract(upper, lower)));
}
