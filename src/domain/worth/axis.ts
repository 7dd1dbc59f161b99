/**
 * A range to try, as `from:to:step` or one figure.
 */
import { add, compare, type Exact, isZero, parseDecimal, subtract } from '../numbers/exact.ts';

/** Most figures on one side of a table. */
export const MOST_STEPS = 40;

/** "50:54:2" is 50, 52, 54; "58" is 58 alone. Says in words what is wrong with anything else. */
export function readAxis(text: string): readonly Exact[] | { readonly wrong: string } {
  const parts = text.split(':').map(parseDecimal);
  const [from, to, step] = parts;
  if (parts.length === 1 && from) return [from];
  if (parts.length !== 3 || !from || !to || !step) {
    return {
      wrong: `must be a figure like 58, or from:to:step like 50:64:2; found ${JSON.stringify(text.slice(0, 60))}`,
    };
  }
  if (isZero(step) || compare(step, subtract(step, step)) < 0 || compare(from, to) > 0) {
    return {
      wrong: `must rise from the first figure to the second by a step above 0; found ${JSON.stringify(text)}`,
    };
  }
  const values: Exact[] = [];
  for (let value = from; compare(value, to) <= 0; value = add(value, step)) {
    if (values.length === MOST_STEPS)
      return { wrong: `has more than ${MOST_STEPS} steps; take a larger one` };
    values.push(value);
  }
  return values;
}
