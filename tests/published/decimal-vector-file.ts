/**
 * Reads a file of General Decimal Arithmetic test vectors (`.decTest`): directives that hold until changed, and one
 * case a line, `id operation operand … -> result condition …`. Nothing of such a file is kept in this repository.
 */
import { type Exact, powerOfTen } from '../../src/domain/numbers/exact.ts';

export interface DecimalVector {
  readonly id: string;
  readonly operation: string;
  readonly operands: readonly string[];
  readonly result: string;
  /** Lower case: `inexact`, `rounded`, `clamped`, … */
  readonly conditions: ReadonlySet<string>;
  readonly rounding: string;
}

/** A finite number as a vector writes it: its exact value, and the exponent of its last digit. */
export interface VectorNumber {
  readonly value: Exact;
  readonly exponent: number;
  /** As written, where that is plain digits without a plus sign, an exponent or a bare point. */
  readonly plain: string | undefined;
}

const NUMBER = /^([+-]?)(\d*)(?:\.(\d*))?(?:e([+-]?\d+))?$/i;
const PLAIN = /^-?\d+(?:\.\d+)?$/;
/** Powers of ten past this would only be slow: they are outside of any weight, test or price. */
export const LARGEST_EXPONENT = 9_999;

/** All cases of a file, in its order. */
export function readVectors(text: string): DecimalVector[] {
  const vectors: DecimalVector[] = [];
  let rounding = '';
  for (const line of text.split('\n')) {
    const directive = /^\s*([a-z]+):\s*(\S+)/i.exec(line);
    if (directive) {
      if (directive[1]?.toLowerCase() === 'rounding') rounding = directive[2]?.toLowerCase() ?? '';
      continue;
    }
    const tokens = tokensOf(line);
    const arrow = tokens.indexOf('->');
    const [id, operation, ...operands] = tokens.slice(0, Math.max(arrow, 0));
    const [result, ...conditions] = tokens.slice(arrow + 1);
    if (arrow < 0 || id === undefined || operation === undefined || result === undefined) continue;
    const raised = new Set(conditions.map((condition) => condition.toLowerCase()));
    vectors.push({ id, operation: operation.toLowerCase(), operands, result, conditions: raised, rounding });
  }
  return vectors;
}

/** Words of a line up to a comment; an operand may stand in quotes. */
function tokensOf(line: string): string[] {
  const tokens: string[] = [];
  for (const [token] of line.matchAll(/'[^']*'|"[^"]*"|\S+/g)) {
    if (token.startsWith('--')) break;
    tokens.push(token.replace(/^(['"])(.*)\1$/, '$2'));
  }
  return tokens;
}

/** NaN, an infinity, an encoding in hexadecimal: anything that is not a finite number in digits. */
export function isSpecial(text: string): boolean {
  return !NUMBER.test(text);
}

/** `-12.50E+3` as −12500 with exponent 1; undefined for NaN, infinities, encodings and exponents that are too large. */
export function readVectorNumber(text: string): VectorNumber | undefined {
  const match = NUMBER.exec(text);
  const [, sign = '', whole = '', fraction = '', power = '0'] = match ?? [];
  if (!match || whole + fraction === '') return undefined;
  const exponent = Number(power) - fraction.length;
  if (Math.abs(exponent) > LARGEST_EXPONENT) return undefined;
  const coefficient = BigInt(whole + fraction) * (sign === '-' ? -1n : 1n);
  const value =
    exponent < 0
      ? { n: coefficient, d: powerOfTen(-exponent) }
      : { n: coefficient * powerOfTen(exponent), d: 1n };
  return { value, exponent, plain: PLAIN.test(text) ? text : undefined };
}
