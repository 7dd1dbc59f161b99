/**
 * Figures, days, dates and texts as an agreement's blocks write them: each a string that stays as it was signed.
 * A figure is a decimal in quotes; what a message says completes "must be …".
 */
import { z } from 'zod';
import { parseLocalDate } from '../dates/local-date.ts';
import { compare, decimal, HUNDRED, MAX_DECIMAL_LENGTH, parseDecimal, ZERO } from '../numbers/exact.ts';
import { CONTROL_CHARACTER } from '../text/control-character.ts';

function figure(expected: string, accepts: (text: string) => boolean) {
  return z
    .string({ error: expected })
    .refine((text) => parseDecimal(text) !== undefined && accepts(text), { error: expected });
}

const FIGURE = `a number in quotes, like "4.25" (digits, at most one point, ${MAX_DECIMAL_LENGTH} characters)`;

export const notNegative = figure(`${FIGURE}, 0 or more`, (text) => compare(decimal(text), ZERO) >= 0);
export const aboveZero = figure(`${FIGURE}, above 0`, (text) => compare(decimal(text), ZERO) > 0);
export const percentage = figure(
  `${FIGURE}, from 0 to 100`,
  (text) => compare(decimal(text), ZERO) >= 0 && compare(decimal(text), HUNDRED) <= 0,
);

/** A count of whole days, both ends included: "7" is, "7.5" and "-7" are not. */
export function wholeDays(from: number, to: number) {
  return figure(
    `a whole number of days in quotes, from ${from} to ${to}`,
    (text) => /^\d{1,6}$/.test(text) && Number(text) >= from && Number(text) <= to,
  );
}

const DATE = 'a date like "2026-09-14"';
export const calendarDate = z
  .string({ error: DATE })
  .refine((day) => parseLocalDate(day) !== undefined, { error: DATE });

const TEXT = 'text in quotes, not empty and without control characters';
export const writtenText = z
  .string({ error: TEXT })
  .refine((words) => words.trim() !== '' && !CONTROL_CHARACTER.test(words), { error: TEXT });

export const yesOrNo = z.boolean({ error: 'true or false, without quotes' });
