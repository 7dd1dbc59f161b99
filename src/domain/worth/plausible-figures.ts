/**
 * Figures that can be true together: what a test does not give is filled from what such feed usually tests, and what
 * starch gains, fibre loses, so that a moved load is still feed. Nothing here prices anything.
 */
import { type Feed, TESTED, type Tested } from '../agreement/measures.ts';
import {
  add,
  compare,
  divide,
  type Exact,
  HUNDRED,
  isNegative,
  isZero,
  larger,
  multiply,
  negate,
  smaller,
  subtract,
  whole,
  ZERO,
} from '../numbers/exact.ts';
import { roundTo } from '../numbers/rounding.ts';
import type { TrialFigures } from './try-out.ts';
import { usualFeed } from './usual-figures.ts';

/** Decimals of a figure that was worked out and not tested. */
const PLACES = 2;
const LEAST_DRY_MATTER = whole(5);
const MOST_DRY_MATTER = whole(98);

function of(figures: TrialFigures, measure: Tested): Exact {
  return figures.get(measure) ?? ZERO;
}

/**
 * Every measure, the given ones as they are. Starch and NDF follow one another where one is missing (their sum is
 * the usual one), ADF keeps its usual part of NDF, and protein, fat and ash shrink where they would pass 100 %.
 */
export function completeFigures(feed: Feed, given: TrialFigures): TrialFigures {
  const usual = usualFeed(feed).figures;
  const both = add(of(usual, 'starch'), of(usual, 'ndf'));
  const adfPart = divide(of(usual, 'adf'), of(usual, 'ndf'));
  const leastNdf = given.get('adf') ?? ZERO;
  const starch =
    given.get('starch') ??
    within(subtract(both, larger(given.get('ndf') ?? of(usual, 'ndf'), leastNdf)), {
      least: ZERO,
      most: HUNDRED,
    });
  const ndf =
    given.get('ndf') ??
    larger(leastNdf, within(subtract(both, starch), { least: ZERO, most: subtract(HUNDRED, starch) }));
  const adf = given.get('adf') ?? roundTo(multiply(ndf, adfPart), PLACES, 'half-up');
  const filled = new Map<Tested, Exact>(TESTED.map((measure) => [measure, of(usual, measure)]));
  for (const [measure, figure] of [...given, ['starch', starch], ['ndf', ndf], ['adf', adf]] as const) {
    filled.set(measure, figure);
  }
  return fitRest(filled, given);
}

/** Protein, fat and ash that were not given, in proportion to what is left of the dry matter. */
function fitRest(filled: TrialFigures, given: TrialFigures): TrialFigures {
  const rest = (['crude-protein', 'crude-fat', 'ash'] as const).filter((measure) => !given.has(measure));
  const fixed = (['starch', 'ndf', 'crude-protein', 'crude-fat', 'ash'] as const).filter(
    (measure) => !rest.some((free) => free === measure),
  );
  const sum = (measures: readonly Tested[]) =>
    measures.reduce((total, measure) => add(total, of(filled, measure)), ZERO);
  const wanted = sum(rest);
  const left = larger(ZERO, subtract(HUNDRED, sum(fixed)));
  if (compare(wanted, left) <= 0 || isZero(wanted)) return filled;
  const part = divide(left, wanted);
  const fitted = new Map(filled);
  for (const measure of rest) {
    fitted.set(measure, roundTo(multiply(of(filled, measure), part), PLACES, 'half-even'));
  }
  return fitted;
}

/** How far a load is moved, in points. */
export interface Move {
  readonly dryMatter?: Exact;
  readonly starch?: Exact;
}

/** A load with more or less dry matter and starch; NDF loses what starch gains, and ADF keeps its part of NDF. */
export function moveFigures(figures: TrialFigures, { dryMatter = ZERO, starch = ZERO }: Move): TrialFigures {
  // Neither starch nor NDF can fall below nothing.
  const moved = within(starch, { least: negate(of(figures, 'starch')), most: of(figures, 'ndf') });
  const ndf = subtract(of(figures, 'ndf'), moved);
  return new Map([
    ...figures,
    [
      'dry-matter',
      within(add(of(figures, 'dry-matter'), dryMatter), { least: LEAST_DRY_MATTER, most: MOST_DRY_MATTER }),
    ],
    ['starch', add(of(figures, 'starch'), moved)],
    ['ndf', ndf],
    ['adf', scaled(of(figures, 'adf'), { from: of(figures, 'ndf'), to: ndf })],
  ]);
}

/**
 * The load with one figure set and the others as they were, but for what cannot be beside it: starch or NDF gives way
 * where both would pass 100 %, and ADF stays within NDF.
 */
export function setFigure(
  figures: TrialFigures,
  { measure, value }: { readonly measure: Tested; readonly value: Exact },
): TrialFigures {
  const set = new Map(figures).set(measure, value);
  if (measure === 'starch') set.set('ndf', smaller(of(set, 'ndf'), larger(ZERO, subtract(HUNDRED, value))));
  if (measure === 'adf') set.set('ndf', larger(of(set, 'ndf'), value));
  if (measure === 'ndf' || measure === 'adf') {
    set.set('starch', smaller(of(set, 'starch'), larger(ZERO, subtract(HUNDRED, of(set, 'ndf')))));
  }
  if (measure !== 'adf') set.set('adf', smaller(of(set, 'adf'), of(set, 'ndf')));
  return set;
}

function scaled(value: Exact, { from, to }: { readonly from: Exact; readonly to: Exact }): Exact {
  if (isZero(from)) return smaller(value, to);
  return smaller(to, roundTo(divide(multiply(value, to), from), PLACES, 'half-up'));
}

function within(value: Exact, { least, most }: { readonly least: Exact; readonly most: Exact }): Exact {
  const bounded = smaller(larger(value, least), most);
  return isNegative(bounded) && !isNegative(least) ? ZERO : bounded;
}
