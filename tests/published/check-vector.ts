/**
 * One General Decimal Arithmetic vector against the number module. A result that the vector calls inexact is our exact
 * value rounded once, by the vector's rule, at the last digit that the result shows; any other is our value itself.
 */
import {
  add,
  compare,
  divide,
  type Exact,
  MAX_DECIMAL_LENGTH,
  multiply,
  negate,
  parseDecimal,
  powerOfTen,
  subtract,
  whole,
} from '../../src/domain/numbers/exact.ts';
import { printUnits } from '../../src/domain/numbers/printing.ts';
import { type Rounding, roundTo, roundToUnits } from '../../src/domain/numbers/rounding.ts';
import { type DecimalVector, isSpecial, readVectorNumber, type VectorNumber } from './decimal-vector-file.ts';

/** What became of a vector: it agrees, it is outside of what the module does (and why), or it differs (and how). */
export type Verdict = { readonly agrees: true } | { readonly outside: string } | { readonly differs: string };

const OPERATIONS: Readonly<Record<string, (a: Exact, b: Exact) => Exact>> = {
  add,
  subtract,
  multiply,
  divide,
  compare: (a, b) => whole(compare(a, b)),
  quantize: (a) => a,
  plus: (a) => a,
  minus: (a) => negate(a),
};
const ZERO_DIVISORS = ['division_by_zero', 'division_undefined'];
/** The limits of a fixed number of digits or exponents, which an exact number does not have. */
const LIMITS = ['invalid_operation', 'overflow', 'underflow', 'subnormal', 'clamped'];

export function checkVector(vector: DecimalVector): Verdict {
  const operate = Object.hasOwn(OPERATIONS, vector.operation) ? OPERATIONS[vector.operation] : undefined;
  if (!operate) return { outside: `operation ${vector.operation}` };
  const operands = vector.operands.map(readVectorNumber);
  const [one, other = one] = operands;
  if (!one || !other || operands.includes(undefined)) {
    return { outside: vector.operands.some(isSpecial) ? 'special operand' : 'huge operand' };
  }
  if (ZERO_DIVISORS.some((condition) => vector.conditions.has(condition))) {
    return checkRefusal(() => operate(one.value, other.value));
  }
  const limit = LIMITS.find((condition) => vector.conditions.has(condition));
  if (limit !== undefined) return { outside: limit };
  const result = readVectorNumber(vector.result);
  if (!result) return { outside: isSpecial(vector.result) ? 'special result' : 'huge result' };
  const rounding = roundingOf(vector);
  if (!rounding) return { outside: `rounding ${vector.rounding}` };

  const value = operate(one.value, other.value);
  if (vector.operation === 'quantize' && result.exponent !== other.exponent) {
    return { differs: `the result is not to the exponent ${other.exponent}` };
  }
  const unread = [one, other, result].find((number) => !isReadAlike(number));
  if (unread) return { differs: `parseDecimal reads ${unread.plain} otherwise` };
  return checkResult(value, { result, rounding, inexact: vector.conditions.has('inexact') });
}

/** Where nothing is lost the rule does not matter, whichever it is. */
function roundingOf({ rounding, conditions }: DecimalVector): Rounding | undefined {
  if (rounding === 'half_even') return 'half-even';
  return rounding === 'half_up' || !conditions.has('inexact') ? 'half-up' : undefined;
}

function checkRefusal(operate: () => Exact): Verdict {
  try {
    return { differs: `gives ${String(operate().n)} where it must throw` };
  } catch (error) {
    return error instanceof RangeError ? { agrees: true } : { differs: String(error) };
  }
}

function isReadAlike({ plain, value }: VectorNumber): boolean {
  if (plain === undefined || plain.length > MAX_DECIMAL_LENGTH) return true;
  const read = parseDecimal(plain);
  return read !== undefined && compare(read, value) === 0;
}

interface Expected {
  readonly result: VectorNumber;
  readonly rounding: Rounding;
  readonly inexact: boolean;
}

function checkResult(value: Exact, { result, rounding, inexact }: Expected): Verdict {
  const rounded = roundAt(value, result.exponent, rounding);
  if (compare(rounded, result.value) !== 0) return { differs: `rounds to ${rounded.n}/${rounded.d}` };
  if (inexact !== (compare(value, result.value) !== 0)) {
    return { differs: inexact ? 'is not changed by rounding' : 'is changed by rounding' };
  }
  if (result.plain === undefined) return { agrees: true };
  const places = -result.exponent;
  const printed = printUnits(roundToUnits(value, places, rounding), places);
  // A zero never has a sign here, as it may in the vectors.
  const expected = /[1-9]/.test(result.plain) ? result.plain : result.plain.replace('-', '');
  return printed === expected ? { agrees: true } : { differs: `prints as ${printed}` };
}

/** Rounded at the digit of that exponent, which for tens and hundreds lies before the point. */
function roundAt(value: Exact, exponent: number, rounding: Rounding): Exact {
  if (exponent <= 0) return roundTo(value, -exponent, rounding);
  const unit = { n: powerOfTen(exponent), d: 1n };
  return multiply(roundTo(divide(value, unit), 0, rounding), unit);
}
