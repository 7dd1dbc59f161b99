/**
 * A scale's divisions: the steps in which it can show a weight, how many of them it may have, and how far it may be off
 * and still pass its test.
 */
import {
  ceiling,
  compare,
  decimal,
  divide,
  type Exact,
  larger,
  multiply,
  ONE,
  whole,
} from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import { type ScaleUnit, toPounds } from '../quantities/units.ts';

/** `III L` is the class of vehicle scales in the United States; elsewhere they are of class III. */
export const ACCURACY_CLASSES = ['III L', 'III', 'IIII', 'not marked'] as const;
export type AccuracyClass = (typeof ACCURACY_CLASSES)[number];

export interface Divided {
  readonly accuracyClass: AccuracyClass;
  readonly capacity: Exact;
  readonly division: Exact;
  /** Of both. */
  readonly unit: ScaleUnit;
}

// Class III L by NIST Handbook 44, table 3 (read in a reprint): divisions of at least 5 lb, and 2,000 to 10,000 of them.
const SMALLEST_DIVISION_POUNDS = whole(5);
/** The same table's figure for metric scales, from memory. */
const SMALLEST_DIVISION_KILOGRAMS = decimal('2');
const FEWEST_DIVISIONS = whole(2000);
const MOST_DIVISIONS = whole(10_000);
const METRIC: readonly ScaleUnit[] = ['kg', 'tonne'];

/** How many divisions a weight in the scale's own unit is. The division must be above 0. */
export function divisionsOf(weight: Exact, division: Exact): Exact {
  return divide(weight, division);
}

/** Whether a scale with this division can have shown the weight; both in its own unit. */
export function isWholeDivisions(weight: Exact, division: Exact): boolean {
  return isWhole(divisionsOf(weight, division));
}

function isWhole({ n, d }: Exact): boolean {
  return n % d === 0n;
}

/**
 * What is wrong with a capacity and division, as a sentence for each fault. A vehicle scale of class III L is held to
 * NIST Handbook 44, table 3; any scale has whole divisions.
 */
export function checkDivisions({ accuracyClass, capacity, division, unit }: Divided): string[] {
  const count = divisionsOf(capacity, division);
  if (compare(count, ONE) < 0) return ['must be at most the capacity'];
  const faults: string[] = [];
  if (!isWhole(count)) {
    faults.push(`must go into the capacity a whole number of times; it goes ${printDecimal(count, 2)} times`);
  }
  if (accuracyClass !== 'III L') return faults;
  if (isBelowSmallest(division, unit)) {
    const smallest = METRIC.includes(unit) ? '2 kg' : '5 lb';
    faults.push(
      `must be at least ${smallest} on a scale of class III L; it is ${printDecimal(division)} ${unit}`,
    );
  }
  if (compare(count, FEWEST_DIVISIONS) < 0 || compare(count, MOST_DIVISIONS) > 0) {
    faults.push(
      `must make 2,000 to 10,000 divisions of the capacity on a scale of class III L; it makes ${printDecimal(count, 0)}`,
    );
  }
  return faults;
}

function isBelowSmallest(division: Exact, unit: ScaleUnit): boolean {
  const pounds = toPounds(division, unit);
  const smallest = METRIC.includes(unit)
    ? toPounds(SMALLEST_DIVISION_KILOGRAMS, 'kg')
    : SMALLEST_DIVISION_POUNDS;
  return compare(pounds, smallest) < 0;
}

/** For so many divisions, or a part of them, a scale in use may be off by one more. */
const DIVISIONS_A_STEP = whole(500);
const HALF = decimal('0.5');

/**
 * How far a class III L scale in use may be off at a weight and still pass its test, in the weight's unit: one division
 * up to 500 of them, and one more for each further 500 or part. NIST Handbook 44, table 6, from memory.
 */
export function maintenanceTolerance(weight: Exact, division: Exact): Exact {
  const steps = whole(ceiling(divide(divisionsOf(weight, division), DIVISIONS_A_STEP)));
  return multiply(larger(steps, ONE), division);
}

/** The same for a scale that is new or just repaired: half as far. From memory, too. */
export function acceptanceTolerance(weight: Exact, division: Exact): Exact {
  return multiply(maintenanceTolerance(weight, division), HALF);
}

/** Up to so many divisions a scale in use may be off by so many; more, by the last. NIST Handbook 44, table 6, from memory. */
const STEPS: Readonly<Record<'III' | 'IIII', readonly (readonly [upTo: number, off: number])[]>> = {
  III: [
    [500, 1],
    [2000, 2],
    [4000, 3],
  ],
  IIII: [
    [50, 1],
    [200, 2],
    [400, 3],
  ],
};
const MOST_OFF = whole(5);

/**
 * How far a scale of a class may be off at a weight and still pass its test in use; all in the weight's unit. One that is
 * not marked is held to the coarsest class.
 */
export function toleranceInUse(accuracyClass: AccuracyClass, weight: Exact, division: Exact): Exact {
  if (accuracyClass === 'III L') return maintenanceTolerance(weight, division);
  const count = divisionsOf(weight, division);
  const step = STEPS[accuracyClass === 'III' ? 'III' : 'IIII'].find(
    ([upTo]) => compare(count, whole(upTo)) <= 0,
  );
  return multiply(step ? whole(step[1]) : MOST_OFF, division);
}
