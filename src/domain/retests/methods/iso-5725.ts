/**
 * The acceptability check of ISO 5725-6. In one laboratory: two results within r are averaged; else further ones are called
 * for, and their range is held against the critical range f(n) s_r, with the median as last resort. Between two
 * laboratories: the critical difference for R, and r with the number of results of each.
 * r = 2.8 s_r is read; f(3) = 3.3, f(4) = 3.6 and the flow are from memory, f recomputed as the 95 % quantile of the range
 * of normal values.
 */
import {
  add,
  compare,
  decimal,
  divide,
  type Exact,
  multiply,
  ONE,
  subtract,
  whole,
} from '../../numbers/exact.ts';
import { distance, meanOf, medianOf, type RetestFigure, rangeOf } from '../figures.ts';
import type { Because, Decided, LaboratoryMethod, Question, Ruling } from '../ruling.ts';
import { figuresFrom, testsNeeded } from '../testing.ts';

type Iso = Extract<LaboratoryMethod, { method: 'iso-5725' }>;

const LIMIT_PER_DEVIATION = decimal('2.8');
const CRITICAL_RANGES: Readonly<Record<3 | 4, Exact>> = { 3: decimal('3.3'), 4: decimal('3.6') };
/** How often the second laboratory tests. */
const REFEREE_RESULTS = 2;

/** s_r = 0.5, a dear test: 70.0, 72.0 and 70.5 range over more than 1.65, so the median, 70.5, counts. */
export function acceptability(method: Iso, { first, later }: Question): Ruling {
  const own = withinLaboratory(method, { first, later });
  if (own.kind === 'needs' || method.reproducibility === undefined) return own;
  const referees = figuresFrom(later, 'referee').slice(0, REFEREE_RESULTS);
  if (referees.length < REFEREE_RESULTS) return testsNeeded(later, { referee: REFEREE_RESULTS });
  return betweenLaboratories(method, { own, referees });
}

function withinLaboratory({ repeatability, test }: Iso, { first, later }: Question): Ruling {
  const again = figuresFrom(later, 'laboratory');
  if (again.length < 1) return testsNeeded(later, { laboratory: 1 });
  const two = [first, ...again.slice(0, 1)];
  const limit = decimal(repeatability);
  if (compare(rangeOf(valuesOf(two)), limit) <= 0) return mean(two, 'mean-of-two');
  const count = test === 'cheap' ? 4 : 3;
  const all = [first, ...again.slice(0, count - 1)];
  if (all.length < count) return testsNeeded(later, { laboratory: count - 1 });
  const critical = divide(multiply(limit, CRITICAL_RANGES[count]), LIMIT_PER_DEVIATION);
  if (compare(rangeOf(valuesOf(all)), critical) <= 0) {
    return mean(all, count === 4 ? 'mean-of-four' : 'mean-of-three');
  }
  return { kind: 'decided', value: medianOf(valuesOf(all)), from: all, because: 'median' };
}

function betweenLaboratories(
  { repeatability, reproducibility = '0' }: Iso,
  { own, referees }: { readonly own: Decided; readonly referees: readonly RetestFigure[] },
): Decided {
  const other = meanOf(valuesOf(referees));
  const apart = distance(own.value, other);
  const limit = criticalDifferenceSquared({
    repeatability: decimal(repeatability),
    reproducibility: decimal(reproducibility),
    counts: [own.from.length, referees.length],
  });
  if (compare(multiply(apart, apart), limit) <= 0) {
    const value = meanOf([own.value, other]);
    return { kind: 'decided', value, from: [...own.from, ...referees], because: 'mean-of-two' };
  }
  return { kind: 'decided', value: other, from: referees, because: 'referee-moved-it' };
}

/** R² − r² (1 − 1/(2 n₁) − 1/(2 n₂)): for r = 1.4, R = 2.8 and two results each, 6.86, whose root is 2.6192. */
export function criticalDifferenceSquared(of: {
  readonly repeatability: Exact;
  readonly reproducibility: Exact;
  readonly counts: readonly [number, number];
}): Exact {
  const { repeatability: r, reproducibility: R, counts } = of;
  const halves = counts.map((count) => divide(ONE, whole(2 * count))).reduce(add);
  return subtract(multiply(R, R), multiply(multiply(r, r), subtract(ONE, halves)));
}

function valuesOf(figures: readonly RetestFigure[]): readonly Exact[] {
  return figures.map(({ value }) => value);
}

function mean(from: readonly RetestFigure[], because: Because): Decided {
  return { kind: 'decided', value: meanOf(valuesOf(from)), from, because };
}
