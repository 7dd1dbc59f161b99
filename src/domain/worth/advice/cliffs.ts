/**
 * Cliffs: places where a hundredth of a point moves more money than the scatter of laboratories moves where there is
 * no step. Found by pricing, with the agreement's own settlement, a load of each figure that such feed is seen with.
 */
import type { PriceTerm } from '../../agreement/document.ts';
import type { Tested } from '../../agreement/measures.ts';
import {
  add,
  compare,
  divide,
  type Exact,
  isNegative,
  multiply,
  negate,
  ratio,
  subtract,
  whole,
  ZERO,
} from '../../numbers/exact.ts';
import { laboratoryScatter } from '../laboratory-scatter.ts';
import { setFigure } from '../plausible-figures.ts';
import { type SeenRange, seenRange } from '../seen-ranges.ts';
import { prepareTriedLoad, type TriedLoad } from '../try-out.ts';
import { type Ground, totalOf } from './ground.ts';
import { coarselyTested, smoothedAgreement, steppedBy } from './stepping-terms.ts';

export interface Cliff {
  readonly measure: Tested;
  /** The price term that jumps most. */
  readonly term: PriceTerm;
  /** The figures on either side, a hundredth of a point (or the finest figure of a report) apart. */
  readonly low: Exact;
  readonly high: Exact;
  /** Money that a load gains or loses between them. */
  readonly jump: Exact;
  /** Money that the scatter moves beside it, without steps; undefined where no scatter is published. */
  readonly elsewhere: Exact | undefined;
  /** How many such places lie in the range that such feed is seen in. */
  readonly places: number;
}

/** A jump of less than a thousandth of the load's price is not worth an argument. */
const SLIGHT = ratio(1n, 1000n);

/** The highest cliff of each price term on each measure. */
export function findCliffs(ground: Ground): readonly Cliff[] {
  const usualTotal = totalOf(ground, ground.tryLoad(ground.usual));
  if (!usualTotal) return [];
  const smoothed = smoothedAgreement(ground.agreement);
  const smooth = smoothed && prepareTriedLoad(smoothed, ground);
  const slight = multiply(size(usualTotal), SLIGHT);
  const coarse = coarselyTested(ground.agreement);
  const stepping = ground.agreement.price.map(steppedBy);
  return [...new Set([...stepping.filter((measure) => measure !== undefined), ...coarse])].flatMap(
    (measure) =>
      cliffsOn({
        ground,
        measure,
        range: seenRange(ground.agreement.feed, measure),
        slight,
        smooth: smooth ?? (() => ({ impossible: 'no line is left' })),
        suspects: stepping.map((own) => own === measure),
        coarse: coarse.includes(measure),
      }),
  );
}

interface Search {
  readonly ground: Ground;
  readonly measure: Tested;
  readonly range: SeenRange;
  readonly slight: Exact;
  readonly smooth: Ground['tryLoad'];
  /** By price term, whether it moves in steps on this measure. */
  readonly suspects: readonly boolean[];
  /** Whether the rounding of the test itself makes steps, in any term. */
  readonly coarse: boolean;
}

interface Step {
  readonly at: Exact;
  readonly change: Exact;
  readonly term: number;
}

function cliffsOn(search: Search): Cliff[] {
  const { ground, measure, slight, range } = search;
  const { low, high, cell } = range;
  const byTerm = new Map<number, { best: Step; places: number }>();
  for (const step of stepsAlong(search, { from: low, to: high, width: cell })) {
    if (compare(step.change, slight) <= 0) continue;
    if (compare(step.change, movedByScatter(search, step.at)) <= 0) continue;
    const known = byTerm.get(step.term);
    const best = known && compare(known.best.change, step.change) >= 0 ? known.best : step;
    byTerm.set(step.term, { best, places: (known?.places ?? 0) + 1 });
  }
  return [...byTerm].flatMap(([index, { best, places }]) => {
    const cliff = sharpened(search, best);
    const term = ground.agreement.price[index];
    return cliff && term ? [{ ...cliff, measure, term, places }] : [];
  });
}

/** The cell's jump down to the finest figure, where it is still a cliff. */
function sharpened(
  search: Search,
  { at, term }: Step,
): Omit<Cliff, 'measure' | 'term' | 'places'> | undefined {
  const { range } = search;
  const fine = stepsAlong(search, { from: at, to: add(at, range.cell), width: range.finest });
  const [first, ...others] = fine.filter((step) => step.term === term);
  if (!first) return undefined;
  const sharpest = others.reduce(
    (best, step) => (compare(step.change, best.change) > 0 ? step : best),
    first,
  );
  const elsewhere = movedByScatter(search, sharpest.at);
  if (compare(sharpest.change, search.slight) <= 0 || compare(sharpest.change, elsewhere) <= 0)
    return undefined;
  const known = laboratoryScatter(search.measure, sharpest.at);
  return {
    low: sharpest.at,
    high: add(sharpest.at, range.finest),
    jump: sharpest.change,
    elsewhere: known && elsewhere,
  };
}

/** How the price changes from each figure to the next, without its sign, where a term that steps changes too. */
function stepsAlong(
  search: Search,
  { from, to, width }: { readonly from: Exact; readonly to: Exact; readonly width: Exact },
): Step[] {
  const { ground, measure } = search;
  const steps: Step[] = [];
  let before: TriedLoad | undefined;
  let last = from;
  for (let count = 0; ; count++) {
    const at = add(from, multiply(width, whole(count)));
    if (compare(at, to) > 0) return steps;
    const here = ground.tryLoad(setFigure(ground.usual, { measure, value: at }));
    const change = before && changeBetween(search, [before, here]);
    if (change) steps.push({ at: last, ...change });
    before = here;
    last = at;
  }
}

function changeBetween(
  { ground, suspects, coarse }: Search,
  [one, other]: readonly [TriedLoad, TriedLoad],
): Omit<Step, 'at'> | undefined {
  const [before, after] = [totalOf(ground, one), totalOf(ground, other)];
  if (one.impossible !== undefined || other.impossible !== undefined || !before || !after) return undefined;
  const changes = one.lines.map(({ amount }, term) => {
    const change = (other.lines[term]?.amount ?? 0n) - amount;
    return { term, size: change < 0n ? -change : change };
  });
  const stepping = changes.filter(({ term, size: moved }) => suspects[term] && moved > 0n);
  const [most] = (stepping.length > 0 || !coarse ? stepping : changes).toSorted((a, b) =>
    a.size > b.size ? -1 : a.size < b.size ? 1 : 0,
  );
  return most && { change: size(subtract(after, before)), term: most.term };
}

/**
 * Money that the price moves, without its steps, where the figure moves by R of the closest laboratories; by a tenth
 * of a point (one cell) where no R is published.
 */
function movedByScatter({ ground, measure, range, smooth }: Search, at: Exact): Exact {
  const width = laboratoryScatter(measure, at)?.low ?? range.cell;
  const half = divide(width, whole(2));
  const price = (figure: Exact) =>
    isNegative(figure)
      ? undefined
      : totalOf(ground, smooth(setFigure(ground.usual, { measure, value: figure })));
  const [low, high] = [price(subtract(at, half)), price(add(at, half))];
  if (low && high) return size(subtract(high, low));
  const [side, middle] = [low ?? high, price(at)];
  return side && middle ? multiply(size(subtract(side, middle)), whole(2)) : ZERO;
}

function size(value: Exact): Exact {
  return isNegative(value) ? negate(value) : value;
}
