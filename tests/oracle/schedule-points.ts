/**
 * What a schedule gives for one test value: points outside the neutral range, counted as agreed,
 * walked outward through the steps of their side.
 */
import {
  add,
  compare,
  type Fraction,
  least,
  multiply,
  parse,
  subtract,
  wholePart,
  zero,
} from './fraction.ts';
import type { ScheduleTerm, Step } from './season.ts';

function counted(points: Fraction, count: ScheduleTerm['count']): Fraction {
  return count === 'exact' ? points : wholePart(points, count === 'started');
}

function walk(points: Fraction, steps: Step[]): Fraction {
  let left = points;
  let total = zero;
  for (const step of steps) {
    const taken = step.points === undefined ? left : least(left, parse(step.points));
    total = add(total, multiply(taken, parse(step.perPoint)));
    left = subtract(left, taken);
  }
  return total;
}

/** Money per unit, or percent, as the schedule's `unit` says; zero inside the range and on its ends. */
export function scheduleTotal(term: ScheduleTerm, value: Fraction): Fraction {
  const from = parse(term.neutral.from);
  const to = parse(term.neutral.to);
  if (compare(value, to) > 0) return walk(counted(subtract(value, to), term.count), term.above ?? []);
  if (compare(value, from) < 0) return walk(counted(subtract(from, value), term.count), term.below ?? []);
  return zero;
}
