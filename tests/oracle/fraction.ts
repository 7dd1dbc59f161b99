/**
 * Exact fractions over BigInt: the arithmetic of the oracle. Denominators are positive.
 * A fraction is brought to lowest terms only once its denominator has grown long: that bounds its size,
 * and no operation here depends on lowest terms. `reduced` gives them to whoever shows a fraction.
 */
export type Fraction = { readonly n: bigint; readonly d: bigint };
export type Rounding = 'half-up' | 'half-even';

const long = 1n << 160n;
const powers: bigint[] = [1n];

export function powerOfTen(k: number): bigint {
  const known = powers[k];
  if (known !== undefined) return known;
  const power = 10n ** BigInt(k);
  powers[k] = power;
  return power;
}

function gcd(a: bigint, b: bigint): bigint {
  let x = a < 0n ? -a : a;
  let y = b;
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

export function reduced(x: Fraction): Fraction {
  const g = gcd(x.n, x.d);
  return g === 1n ? x : { n: x.n / g, d: x.d / g };
}

function fraction(n: bigint, d: bigint): Fraction {
  return d > long ? reduced({ n, d }) : { n, d };
}

export function whole(n: bigint | number): Fraction {
  return { n: BigInt(n), d: 1n };
}

export const zero = whole(0);
export const one = whole(1);
export const hundred = whole(100);

/** Reads `-?digits[.digits]` and nothing else. */
export function parse(text: string): Fraction {
  if (!/^-?\d+(?:\.\d+)?$/.test(text)) throw new Error(`not a decimal: "${text}"`);
  const point = text.indexOf('.');
  if (point < 0) return { n: BigInt(text), d: 1n };
  const digits = text.slice(0, point) + text.slice(point + 1);
  return { n: BigInt(digits), d: powerOfTen(text.length - point - 1) };
}

export function add(a: Fraction, b: Fraction): Fraction {
  return a.d === b.d ? { n: a.n + b.n, d: a.d } : fraction(a.n * b.d + b.n * a.d, a.d * b.d);
}

export function subtract(a: Fraction, b: Fraction): Fraction {
  return add(a, { n: -b.n, d: b.d });
}

export function multiply(a: Fraction, ...rest: Fraction[]): Fraction {
  let { n, d } = a;
  for (const b of rest) {
    n *= b.n;
    d *= b.d;
  }
  return fraction(n, d);
}

export function divide(a: Fraction, b: Fraction): Fraction {
  if (b.n === 0n) throw new Error('division by zero');
  return b.n < 0n ? fraction(-a.n * b.d, a.d * -b.n) : fraction(a.n * b.d, a.d * b.n);
}

/** Negative, zero or positive as a is below, equal to or above b. */
export function compare(a: Fraction, b: Fraction): number {
  const difference = a.n * b.d - b.n * a.d;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

export function least(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) <= 0 ? a : b;
}

export function greatest(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) >= 0 ? a : b;
}

/** Floor of a fraction that is not negative; `up` gives the ceiling. */
export function wholePart(x: Fraction, up: boolean): Fraction {
  return whole((up ? x.n + x.d - 1n : x.n) / x.d);
}

/** x in units of 10^-k, rounded; ties go away from zero (`half-up`) or to the even unit. */
export function roundedUnits(x: Fraction, k: number, rule: Rounding): bigint {
  const size = (x.n < 0n ? -x.n : x.n) * powerOfTen(k);
  let units = size / x.d;
  const twice = 2n * (size - units * x.d);
  if (twice > x.d || (twice === x.d && (rule === 'half-up' || units % 2n === 1n))) units += 1n;
  return x.n < 0n ? -units : units;
}

export function rounded(x: Fraction, k: number, rule: Rounding): Fraction {
  return { n: roundedUnits(x, k, rule), d: powerOfTen(k) };
}

/** True where x lies exactly half way between two units of 10^-k. */
export function isTie(x: Fraction, k: number): boolean {
  const twice = 2n * x.n * powerOfTen(k);
  return twice % x.d === 0n && (twice / x.d) % 2n !== 0n;
}

/** Prints units of 10^-k with all k decimals; zero has no sign. */
export function printUnits(units: bigint, k: number): string {
  const sign = units < 0n ? '-' : '';
  const digits = (units < 0n ? -units : units).toString().padStart(k + 1, '0');
  const point = digits.length - k;
  return k === 0 ? sign + digits : `${sign}${digits.slice(0, point)}.${digits.slice(point)}`;
}

/** Prints at most k decimals, half-up, without trailing zeros. */
export function printTrimmed(x: Fraction, k = 6): string {
  const text = printUnits(roundedUnits(x, k, 'half-up'), k);
  return k === 0 ? text : text.replace(/\.?0+$/, '');
}
