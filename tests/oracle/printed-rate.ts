/**
 * The rate as a line prints it: six decimals at most, trimmed, and more only where the printed quantity
 * times the printed rate would not round to the amount.
 */
import { compare, multiply, parse, printTrimmed, type Rounding, rounded } from './fraction.ts';
import type { OracleLine } from './oracle.ts';

/** Undefined where no number of decimals makes it fit: the six decimals of the quantity stand in the way. */
export function printedRate(line: OracleLine, decimals: number, rounding: Rounding): string | undefined {
  const quantity = parse(line.quantity);
  const amount = parse(line.amount);
  for (let places = 6; places <= 40; places += 1) {
    const rate = printTrimmed(line.rate, places);
    if (compare(rounded(multiply(quantity, parse(rate)), decimals, rounding), amount) === 0) return rate;
  }
  return undefined;
}
