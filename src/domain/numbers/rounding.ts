/**
 * Rounding to a number of decimals, by a rule that is always named where rounding happens.
 * `half-up` takes a tie away from zero; `half-even` takes it to the even neighbour.
 */
import { type Exact, powerOfTen } from './exact.ts';

export type Rounding = 'half-up' | 'half-even';

/**
 * The value in units of its last decimal, rounded once: 1.005 to 2 places half-up is 101 (hundredths).
 * Exact for any quotient; −0.004 to 2 places is 0, which has no sign.
 */
export function roundToUnits(value: Exact, places: number, rounding: Rounding): bigint {
  const scaled = value.n * powerOfTen(places);
  const quotient = scaled / value.d;
  const remainder = scaled - quotient * value.d;
  if (remainder === 0n) return quotient;
  const twice = remainder < 0n ? -2n * remainder : 2n * remainder;
  const awayFromZero =
    twice > value.d || (twice === value.d && (rounding === 'half-up' || (quotient & 1n) === 1n));
  if (!awayFromZero) return quotient;
  return value.n < 0n ? quotient - 1n : quotient + 1n;
}

/** The value rounded once to `places` decimals, as an exact number: 31.34 to 1 place is 31.3. */
export function roundTo(value: Exact, places: number, rounding: Rounding): Exact {
  return { n: roundToUnits(value, places, rounding), d: powerOfTen(places) };
}
