/**
 * The weights that keep an agreed volume.
 */
import { add, type Exact, multiply, percent, subtract, ZERO } from '../numbers/exact.ts';

/** 1,500 within 10 % is 1,350 to 1,650, both ends in it, in the unit of the amount; without a tolerance the amount alone. */
export function committedRange(
  amount: Exact,
  tolerancePercent: Exact | undefined,
): { readonly least: Exact; readonly most: Exact } {
  const slack = multiply(amount, percent(tolerancePercent ?? ZERO));
  return { least: subtract(amount, slack), most: add(amount, slack) };
}
