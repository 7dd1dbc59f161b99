/**
 * The shapes of single values in a document: numbers as decimal strings within their bounds, texts, dates. Each says in
 * words what it expected, to complete "must be …".
 */
import { z } from 'zod';
import { parseLocalDate } from '../dates/local-date.ts';
import { compare, HUNDRED, MAX_DECIMAL_LENGTH, parseDecimal, ZERO } from '../numbers/exact.ts';
import { CONTROL_CHARACTER } from '../text/control-character.ts';

/** A number as text that passes `accepts`; `expected` completes "must be …". */
export function numberText(expected: string, accepts: (text: string) => boolean = () => true) {
  return z.string({ error: expected }).refine((text) => parseDecimal(text) !== undefined && accepts(text), {
    error: expected,
  });
}
function value(text: string) {
  return parseDecimal(text) ?? ZERO;
}

const SHAPE = `a number in quotes, like "4.25" (digits, at most one point, ${MAX_DECIMAL_LENGTH} characters)`;
export const anyNumber = numberText(SHAPE);
export const notNegative = numberText(`${SHAPE}, 0 or more`, (text) => compare(value(text), ZERO) >= 0);
export const aboveZero = numberText(`${SHAPE}, above 0`, (text) => compare(value(text), ZERO) > 0);
export const share = numberText(
  `${SHAPE}, above 0 and at most 100`,
  (text) => compare(value(text), ZERO) > 0 && compare(value(text), HUNDRED) <= 0,
);
export const percentage = numberText(
  `${SHAPE}, from 0 to 100`,
  (text) => compare(value(text), ZERO) >= 0 && compare(value(text), HUNDRED) <= 0,
);
export const wholeNumber = (from: number, to: number) =>
  numberText(
    `a whole number in quotes, from ${from} to ${to}`,
    (text) => /^\d{1,6}$/.test(text) && Number(text) >= from && Number(text) <= to,
  );
export const text = z
  .string({ error: 'text in quotes' })
  .refine((words) => words.trim() !== '', { error: 'text in quotes, not empty' })
  .refine((words) => !CONTROL_CHARACTER.test(words), {
    error: 'text in quotes, without control characters',
  });
const DATE = 'a date like "2026-09-14"';
export const date = z
  .string({ error: DATE })
  .refine((day) => parseLocalDate(day) !== undefined, { error: DATE });

export const yesOrNo = z.boolean({ error: 'true or false, without quotes' });
