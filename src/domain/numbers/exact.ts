/**
 * Exact numbers: a quotient of two integers, never a binary float and never a shortened decimal.
 * Every sum, product and quotient is exact, so a figure is rounded once, where a rule names it, and nowhere else.
 * Quotients are not reduced: inputs have few digits, and reducing would cost more than it saves.
 */

/** numerator ÷ denominator; the denominator is always above zero. */
export interface Exact {
  readonly n: bigint;
  readonly d: bigint;
}

const DECIMAL = /^-?\d+(?:\.\d+)?$/;

/** Longest decimal string that is read: far past any weight, test or price, short of a denial of service. */
export const MAX_DECIMAL_LENGTH = 60;

const POWERS_OF_TEN: bigint[] = [1n];

/** 10 to the power of `places`, a whole number of 0 or more. Throws a RangeError for any other. */
export function powerOfTen(places: number): bigint {
  const known = POWERS_OF_TEN[places];
  if (known !== undefined) return known;
  if (!Number.isSafeInteger(places) || places < 0)
    throw new RangeError(`Not a number of decimals: ${places}`);
  for (let next = POWERS_OF_TEN.length; next <= places; next++) {
    POWERS_OF_TEN.push((POWERS_OF_TEN[next - 1] ?? 1n) * 10n);
  }
  return POWERS_OF_TEN[places] ?? 1n;
}

/** How many decimals a value is written with, where its denominator is a power of ten that has been in use. */
export function decimalPlaces({ d }: Exact): number | undefined {
  const places = POWERS_OF_TEN.indexOf(d);
  return places < 0 ? undefined : places;
}

/** The quotient n ÷ d of two integers. Throws on a zero denominator: that is a defect, not an input error. */
export function ratio(n: bigint, d: bigint): Exact {
  if (d === 0n) throw new RangeError('Division by zero');
  return d < 0n ? { n: -n, d: -d } : { n, d };
}

export const ZERO: Exact = { n: 0n, d: 1n };
export const ONE: Exact = { n: 1n, d: 1n };
export const HUNDRED: Exact = { n: 100n, d: 1n };

/** A whole number as an exact one. */
export function whole(n: number | bigint): Exact {
  return { n: BigInt(n), d: 1n };
}

/**
 * Reads `-?digits[.digits]`, and nothing else: no plus sign, exponent, thousands mark or blank.
 * Returns undefined for anything that is not such a string. `"59.20"` is 5920 ÷ 100.
 */
export function parseDecimal(text: string): Exact | undefined {
  if (text.length > MAX_DECIMAL_LENGTH || !DECIMAL.test(text)) return undefined;
  const point = text.indexOf('.');
  if (point < 0) return { n: BigInt(text), d: 1n };
  const places = text.length - point - 1;
  return { n: BigInt(text.slice(0, point) + text.slice(point + 1)), d: powerOfTen(places) };
}

/** `parseDecimal` for text that has been checked already: throws where the text is not a decimal. */
export function decimal(text: string): Exact {
  const value = parseDecimal(text);
  if (value === undefined) throw new RangeError(`Not a decimal: ${JSON.stringify(text.slice(0, 80))}`);
  return value;
}

/** a + b, exactly. */
export function add(a: Exact, b: Exact): Exact {
  return a.d === b.d ? { n: a.n + b.n, d: a.d } : { n: a.n * b.d + b.n * a.d, d: a.d * b.d };
}

/** a − b, exactly. */
export function subtract(a: Exact, b: Exact): Exact {
  return a.d === b.d ? { n: a.n - b.n, d: a.d } : { n: a.n * b.d - b.n * a.d, d: a.d * b.d };
}

/** a × b, exactly. */
export function multiply(a: Exact, b: Exact): Exact {
  return { n: a.n * b.n, d: a.d * b.d };
}

/** a ÷ b. Throws where b is zero. */
export function divide(a: Exact, b: Exact): Exact {
  return ratio(a.n * b.d, a.d * b.n);
}

/** −a. */
export function negate(a: Exact): Exact {
  return { n: -a.n, d: a.d };
}

/** Below zero when a < b, zero when equal, above zero when a > b. */
export function compare(a: Exact, b: Exact): -1 | 0 | 1 {
  const left = a.n * b.d;
  const right = b.n * a.d;
  return left < right ? -1 : left > right ? 1 : 0;
}

/** Whether a is 0, by whatever denominator. */
export function isZero(a: Exact): boolean {
  return a.n === 0n;
}

/** Whether a is below 0. */
export function isNegative(a: Exact): boolean {
  return a.n < 0n;
}

/** The lesser of two; of equals, the first. */
export function smaller(a: Exact, b: Exact): Exact {
  return compare(a, b) <= 0 ? a : b;
}

/** The greater of two; of equals, the first. */
export function larger(a: Exact, b: Exact): Exact {
  return compare(a, b) >= 0 ? a : b;
}

/** The largest whole number not above a. */
export function floor(a: Exact): bigint {
  const quotient = a.n / a.d;
  return a.n < 0n && quotient * a.d !== a.n ? quotient - 1n : quotient;
}

/** The smallest whole number not below a. */
export function ceiling(a: Exact): bigint {
  return -floor(negate(a));
}

/** A percentage as a fraction of one: 59.2 is 0.592. */
export function percent(a: Exact): Exact {
  return { n: a.n, d: a.d * 100n };
}
