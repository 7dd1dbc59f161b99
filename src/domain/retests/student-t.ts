/**
 * Student's t for whole degrees of freedom: a probability and no weight, test or price, so that a binary number does.
 * By the finite sums of Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4.
 */

/**
 * How likely it is that |T| exceeds |t| by chance alone, between 0 and 1: t = 2.262 on 9 degrees of freedom gives 0.05. Good
 * to about 14 decimals, not digits: what lies far out comes to 0. `freedom` must be a whole number of 1 or more; throws a
 * RangeError for any other.
 */
export function outsideT(t: number, freedom: number): number {
  if (!Number.isSafeInteger(freedom) || freedom < 1) {
    throw new RangeError(`Not a number of degrees of freedom: ${freedom}`);
  }
  const angle = Math.atan(Math.abs(t) / Math.sqrt(freedom));
  const inside =
    freedom % 2 === 1
      ? (2 / Math.PI) * (angle + Math.sin(angle) * cosines(angle, freedom))
      : Math.sin(angle) * cosines(angle, freedom);
  return Math.max(0, 1 - inside);
}

/**
 * Odd: cos + 2/3 cos³ + (2·4)/(3·5) cos⁵ … up to the power freedom − 2. Even: 1 + 1/2 cos² + (1·3)/(2·4) cos⁴ … up to the same.
 */
function cosines(angle: number, freedom: number): number {
  const square = Math.cos(angle) ** 2;
  let power = freedom % 2;
  let term = power === 1 ? Math.cos(angle) : 1;
  let sum = 0;
  for (; power <= freedom - 2; power += 2) {
    sum += term;
    term *= ((power + 1) / (power + 2)) * square;
  }
  return sum;
}
