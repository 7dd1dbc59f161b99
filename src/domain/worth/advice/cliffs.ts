/**
 * Cliffs: places where a hundredth of a point moves more money than the scatter of laboratories moves where there is
 * no step. Found by pricing, with the agreement's own settlement, a load of each figure that such feed is seen with.
 */
import type { Agreement, PriceTerm } from '../../agreement/document.ts';
import { type Measure, TESTED, type Tested } from '../../agreement/measures.ts';
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
import { measuresNeeded } from '../../settlement/prepare-term.ts';
import { laboratoryScatter } from '../laboratory-scatter.ts';
import { setFigure } from '../plausible-figures.ts';
import { type SeenRange, seenRange } from '../seen-ranges.ts';
import { prepareTriedLoad, type TriedLoad } from '../try-out.ts';
import { type Ground, totalOf } from './ground.ts';

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

/** Cells that are taken to lie in the same scatter while cliffs are looked for; half a point. */
const CELLS_ALIKE = 5;

/** The highest cliff of each price term on each measure. */
export function findCliffs(ground: Ground): readonly Cliff[] {
  const usualTotal = totalOf(ground, ground.tryLoad(ground.usual));
  if (!usualTotal) return [];
  const smoothed = smoothedAgreement(ground.agreement);
  const smooth = smoothed && prepareTriedLoad(smoothed, ground);
  const slight = multiply(size(usualTotal), SLIGHT);
  return steppedMeasures(ground.agreement).flatMap((measure) =>
    cliffsOn({ ground, measure, slight, smooth: smooth ?? (() => ({ impossible: 'no line is left' })) }),
  );
}

/** Measures on which a price can jump at all. */
function steppedMeasures({ price, tests }: Agreement): readonly Tested[] {
  const needs = new Set(price.flatMap(measuresNeeded).map(testedAs));
  const stepped = new Set<Tested>(
    price.flatMap((term): Tested[] => {
      if (term.term === 'schedule' && term.count !== 'exact') return [testedAs(term.on)];
      if (term.term !== 'equivalent-bushels') return [];
      const inSteps =
        term.bushelDecimals !== undefined ||
        (term.method.kind === 'table' && term.method.between === 'next-wetter');
      return inSteps ? ['dry-matter'] : [];
    }),
  );
  // A figure kept to a tenth moves less than any scatter that is published; pH alone is that fine.
  for (const measure of TESTED) {
    const decimals = tests?.[measure]?.decimals;
    if (decimals === undefined || !needs.has(measure)) continue;
    if (Number(decimals) === 0 || (measure === 'ph' && Number(decimals) === 1)) stepped.add(measure);
  }
  return [...stepped];
}

function testedAs(measure: Measure): Tested {
  return measure === 'moisture' ? 'dry-matter' : measure;
}

/** The agreement without what makes its price jump: schedules in whole points, rows, and rounded figures. */
function smoothedAgreement({ tests: _, ...agreement }: Agreement): Agreement | undefined {
  const price = agreement.price.flatMap((term): PriceTerm[] => {
    if (term.term === 'schedule' && term.count !== 'exact') return [];
    if (term.term !== 'equivalent-bushels') return [term];
    const { bushelDecimals: __, method, ...rest } = term;
    return [{ ...rest, method: method.kind === 'table' ? { ...method, between: 'linear' } : method }];
  });
  return price.length === 0 ? undefined : { ...agreement, price };
}

interface Search {
  readonly ground: Ground;
  readonly measure: Tested;
  readonly slight: Exact;
  readonly smooth: Ground['tryLoad'];
}

interface Step {
  readonly at: Exact;
  readonly change: Exact;
  readonly term: number;
}

function cliffsOn(search: Search): Cliff[] {
  const { ground, measure, slight } = search;
  const range = seenRange(ground.agreement.feed, measure);
  const { low, high, cell } = range;
  const byTerm = new Map<number, { best: Step; places: number }>();
  // What the scatter moves changes slowly along the range, so neighbouring cells share one look at it here.
  const scatterNear = new Map<number, Exact>();
  for (const [index, step] of stepsAlong(search, { from: low, to: high, width: cell }).entries()) {
    if (compare(step.change, slight) <= 0) continue;
    const near = Math.floor(index / CELLS_ALIKE);
    const elsewhere = scatterNear.get(near) ?? movedByScatter(search, step.at, range);
    scatterNear.set(near, elsewhere);
    if (compare(step.change, elsewhere) <= 0) continue;
    const known = byTerm.get(step.term);
    const best = known && compare(known.best.change, step.change) >= 0 ? known.best : step;
    byTerm.set(step.term, { best, places: (known?.places ?? 0) + 1 });
  }
  return [...byTerm].flatMap(([index, { best, places }]) => {
    const cliff = sharpened(search, best, range);
    const term = ground.agreement.price[index];
    return cliff && term ? [{ ...cliff, measure, term, places }] : [];
  });
}

/** The cell's jump down to the finest figure, where it is still a cliff. */
function sharpened(
  search: Search,
  { at, term }: Step,
  range: SeenRange,
): Omit<Cliff, 'measure' | 'term' | 'places'> | undefined {
  const fine = stepsAlong(search, { from: at, to: add(at, range.cell), width: range.finest });
  const [first, ...others] = fine.filter((step) => step.term === term);
  if (!first) return undefined;
  const sharpest = others.reduce(
    (best, step) => (compare(step.change, best.change) > 0 ? step : best),
    first,
  );
  const elsewhere = movedByScatter(search, sharpest.at, range);
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

/** How the price changes from each figure to the next, without its sign, and which term changes most. */
function stepsAlong(
  { ground, measure }: Search,
  { from, to, width }: { readonly from: Exact; readonly to: Exact; readonly width: Exact },
): Step[] {
  const steps: Step[] = [];
  let before: TriedLoad | undefined;
  let last = from;
  for (let count = 0; ; count++) {
    const at = add(from, multiply(width, whole(count)));
    if (compare(at, to) > 0) return steps;
    const here = ground.tryLoad(setFigure(ground.usual, measure, at));
    const change = before && changeBetween(ground, before, here);
    if (change) steps.push({ at: last, ...change });
    before = here;
    last = at;
  }
}

function changeBetween(ground: Ground, one: TriedLoad, other: TriedLoad): Omit<Step, 'at'> | undefined {
  const [before, after] = [totalOf(ground, one), totalOf(ground, other)];
  if (one.impossible !== undefined || other.impossible !== undefined || !before || !after) return undefined;
  let term = 0;
  let most = -1n;
  for (const [index, line] of one.lines.entries()) {
    const change = (other.lines[index]?.amount ?? 0n) - line.amount;
    const amount = change < 0n ? -change : change;
    if (amount > most) [most, term] = [amount, index];
  }
  return { change: size(subtract(after, before)), term };
}

/**
 * Money that the price moves, without its steps, where the figure moves by R of the closest laboratories; by a tenth
 * of a point (one cell) where no R is published.
 */
function movedByScatter({ ground, measure, smooth }: Search, at: Exact, { cell }: SeenRange): Exact {
  const width = laboratoryScatter(measure, at)?.low ?? cell;
  const half = divide(width, whole(2));
  const price = (figure: Exact) =>
    isNegative(figure) ? undefined : totalOf(ground, smooth(setFigure(ground.usual, measure, figure)));
  const [low, high] = [price(subtract(at, half)), price(add(at, half))];
  if (low && high) return size(subtract(high, low));
  const [side, middle] = [low ?? high, price(at)];
  return side && middle ? multiply(size(subtract(side, middle)), whole(2)) : ZERO;
}

function size(value: Exact): Exact {
  return isNegative(value) ? negate(value) : value;
}
