/**
 * A questioned weight is held against a second scale: gross and tare both, with the tolerance of each of the four
 * weighings by its scale's class and division.
 */
import type { DecidingMethod } from '../agreement/retest-rules.ts';
import { add, compare, decimal, type Exact, larger, multiply, subtract } from '../numbers/exact.ts';
import { fromPounds, type ScaleUnit, toPounds } from '../quantities/units.ts';
import { type AccuracyClass, toleranceInUse } from '../scales/divisions.ts';
import { distance } from './figures.ts';

/** What a scale is held to. */
export interface ScaleMarks {
  readonly accuracyClass: AccuracyClass;
  readonly division: Exact;
  /** Of the division. */
  readonly unit: ScaleUnit;
}

export interface WeighedTwice {
  readonly gross: Exact;
  readonly tare: Exact;
  /** Of both. */
  readonly unit: ScaleUnit;
  /** Undefined where the ticket names none. */
  readonly grossScale: ScaleMarks | undefined;
  readonly tareScale: ScaleMarks | undefined;
}

export interface WeightRuling {
  /** All in pounds. */
  readonly first: Exact;
  readonly second: Exact;
  readonly apart: Exact;
  readonly allowed: Exact;
  readonly because: 'first-stands' | 'second-moved-it';
}

/** How a weight is decided. */
export type SecondScale = Extract<DecidingMethod, { readonly method: 'second-scale' }>;

/**
 * Net 47,120 and 47,300 lb by two class III L scales of 20 lb division lie 180 lb apart; gross 78,220 may be off by 160,
 * tare 31,100 by 80 on each, so that 480 is allowed and the first stands. A difference just as large as is allowed leaves
 * the first. Where the ticket names no scale, the second scale's tolerance is taken for it.
 */
export function ruleOnWeight(
  { toleranceDivisions }: SecondScale,
  { first, second }: { readonly first: WeighedTwice; readonly second: WeighedTwice },
): WeightRuling {
  const nets = { first: netPounds(first), second: netPounds(second) };
  const apart = distance(nets.first, nets.second);
  const allowed =
    toleranceDivisions === undefined
      ? add(tolerancePounds(first, second), tolerancePounds(second, second))
      : multiply(decimal(toleranceDivisions), coarsestDivision([first, second]));
  const isMoved = compare(apart, allowed) > 0;
  return { ...nets, apart, allowed, because: isMoved ? 'second-moved-it' : 'first-stands' };
}

export function netPounds({ gross, tare, unit }: Pick<WeighedTwice, 'gross' | 'tare' | 'unit'>): Exact {
  return toPounds(subtract(gross, tare), unit);
}

/** How far the scales of one pair of weighings may be off at these weights, taken together. */
export function tolerancePounds(weighed: WeighedTwice, fallback: WeighedTwice): Exact {
  const { gross, tare } = tolerancesOf(weighed, fallback);
  return add(gross, tare);
}

/** How far the scale of each weighing may be off at its weight, in pounds; `fallback` has the scales of those without one. */
export function tolerancesOf(
  weighed: WeighedTwice,
  fallback: WeighedTwice,
): Readonly<Record<'gross' | 'tare', Exact>> {
  const of = (weight: Exact, scale: ScaleMarks | undefined): Exact => {
    if (!scale) return decimal('0');
    const own = fromPounds(toPounds(weight, weighed.unit), scale.unit);
    return toPounds(toleranceInUse(scale.accuracyClass, own, scale.division), scale.unit);
  };
  return {
    gross: of(weighed.gross, weighed.grossScale ?? fallback.grossScale),
    tare: of(weighed.tare, weighed.tareScale ?? fallback.tareScale),
  };
}

function coarsestDivision(weighed: readonly WeighedTwice[]): Exact {
  return weighed
    .flatMap(({ grossScale, tareScale }) => [grossScale, tareScale])
    .flatMap((scale) => (scale ? [toPounds(scale.division, scale.unit)] : []))
    .reduce(larger, decimal('0'));
}
