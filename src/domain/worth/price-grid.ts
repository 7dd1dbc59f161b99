/**
 * What a formula pays over two ranges of figures, and along a rising starch: the data of a table and of a curve.
 */
import type { Agreement } from '../agreement/document.ts';
import type { Measure, Tested } from '../agreement/measures.ts';
import { readerUnits } from '../agreement/reader-units.ts';
import {
  add,
  compare,
  type Exact,
  HUNDRED,
  isNegative,
  isZero,
  multiply,
  subtract,
  whole,
  ZERO,
} from '../numbers/exact.ts';
import { moveFigures } from './plausible-figures.ts';
import { prepareTryOut, type TrialFigures, type TrialLoad, type TriedPrice } from './try-out.ts';

/** A measure and the figures that it is tried with; moisture may stand for dry matter. */
export interface Axis {
  readonly measure: Measure;
  readonly values: readonly Exact[];
}

export interface GridRequest {
  readonly rows?: Axis | undefined;
  readonly columns?: Axis | undefined;
  /** The other figures, the same in every cell; moisture may stand for dry matter. */
  readonly fixed: ReadonlyMap<Measure, Exact>;
  readonly quotes: ReadonlyMap<string, string>;
  readonly load: TrialLoad;
}

export interface PriceGrid {
  readonly rows: Axis | undefined;
  readonly columns: Axis | undefined;
  /** Row by row, a price for each column; one row or one column where there is no such axis. */
  readonly cells: readonly (readonly TriedPrice[])[];
}

/** The price at every pair of figures, per ton of the agreement's own kind. */
export function priceGrid(
  agreement: Agreement,
  { rows, columns, fixed, quotes, load }: GridRequest,
): PriceGrid {
  const price = prepareTryOut(agreement, { quotes, load, ton: readerUnits(agreement).ton });
  const places = (axis: Axis | undefined): [Measure, Exact][][] =>
    axis ? axis.values.map((value) => [[axis.measure, value]]) : [[]];
  return {
    rows,
    columns,
    cells: places(rows).map((row) =>
      places(columns).map((column) => price(testedFigures([...fixed, ...row, ...column]))),
    ),
  };
}

/** Moisture as its dry matter, and everything else as it is. */
function testedFigures(given: readonly (readonly [Measure, Exact])[]): TrialFigures {
  return new Map(
    given.map(([measure, value]): [Tested, Exact] =>
      measure === 'moisture' ? ['dry-matter', subtract(HUNDRED, value)] : [measure, value],
    ),
  );
}

/** How NDF goes as starch rises: it stays, or it loses each point that starch gains (and ADF its part of that). */
export type FibreCourse = 'held' | 'gives-way';

export interface CurveRequest {
  /** The load that starch is moved in; its dry matter and the rest stay. */
  readonly figures: TrialFigures;
  readonly starch: { readonly from: Exact; readonly to: Exact; readonly step: Exact };
  readonly fibre: FibreCourse;
  readonly quotes: ReadonlyMap<string, string>;
  readonly load: TrialLoad;
}

export interface CurvePoint {
  readonly starch: Exact;
  readonly ndf: Exact;
  readonly price: TriedPrice;
}

/** The price against starch at one dry matter. Throws where the step is not above 0. */
export function priceCurve(
  agreement: Agreement,
  { figures, starch, fibre, quotes, load }: CurveRequest,
): readonly CurvePoint[] {
  if (isZero(starch.step) || isNegative(starch.step)) throw new RangeError('The step must be above 0');
  const price = prepareTryOut(agreement, { quotes, load, ton: readerUnits(agreement).ton });
  const points: CurvePoint[] = [];
  for (let count = 0; ; count++) {
    const at = add(starch.from, multiply(starch.step, whole(count)));
    if (compare(at, starch.to) > 0) return points;
    const moved =
      fibre === 'held'
        ? new Map(figures).set('starch', at)
        : moveFigures(figures, { starch: subtract(at, figures.get('starch') ?? ZERO) });
    points.push({
      starch: moved.get('starch') ?? ZERO,
      ndf: moved.get('ndf') ?? ZERO,
      price: price(moved),
    });
  }
}
