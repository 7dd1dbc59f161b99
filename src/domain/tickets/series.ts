/**
 * A ticket series: a prefix, so many digits, and a first number. Every number of it has to be accounted for, so that no
 * load can be left out and none slipped in.
 */
import type { Row } from '../tables/row.ts';

export interface TicketSeries {
  /** Before the digits; '' where tickets are plain numbers. */
  readonly prefix: string;
  /** Fewest digits, filled with zeros from the left; 0 for none. */
  readonly width: number;
  readonly firstNumber: number;
}

export const SERIES_COLUMNS = { required: ['first'], optional: ['prefix'] } as const;

const MOST_DIGITS = 12;
/** The record keeps first numbers up to this. */
const HIGHEST_FIRST = 2_147_483_647;

/**
 * Reads a series from its first ticket as it is printed: "000123" counts with six digits, "123" without zeros before.
 * The series, or undefined where the row has faults (which the row then holds).
 */
export function readSeriesRow(row: Row): TicketSeries | undefined {
  const prefix = row.optionalName('prefix');
  const first = row.text('first');
  if (/\d$/.test(prefix)) row.fault('prefix', 'must not end in a digit: digits are part of the number');
  if (!/^\d+$/.test(first) || first.length > MOST_DIGITS || Number(first) > HIGHEST_FIRST) {
    row.fault(
      'first',
      `must be the digits of the first ticket, at most ${MOST_DIGITS} and not above 2147483647`,
    );
  }
  if (row.problems.length > 0) return undefined;
  return { prefix, width: first.startsWith('0') ? first.length : 0, firstNumber: Number(first) };
}

/** A number of the series as its ticket shows it. */
export function ticketOf({ prefix, width }: TicketSeries, number: number): string {
  return `${prefix}${String(number).padStart(width, '0')}`;
}

/** The number of a ticket of this series; undefined for one that is not of it. */
export function numberOf(series: TicketSeries, ticket: string): number | undefined {
  if (!ticket.startsWith(series.prefix)) return undefined;
  const digits = ticket.slice(series.prefix.length);
  if (!/^\d+$/.test(digits) || digits.length > MOST_DIGITS) return undefined;
  const number = Number(digits);
  return number >= series.firstNumber && ticketOf(series, number) === ticket ? number : undefined;
}

/** The number that follows the highest that was used; the first where none was. */
export function nextNumber({ firstNumber }: TicketSeries, used: readonly number[]): number {
  return used.reduce((next, number) => Math.max(next, number + 1), firstNumber);
}

/** Numbers that are missing side by side, both ends included. */
export interface Gap {
  readonly from: number;
  readonly to: number;
}

/** The numbers below the highest used that nothing accounts for, in order. */
export function gapsOf({ firstNumber }: TicketSeries, used: readonly number[]): readonly Gap[] {
  const gaps: Gap[] = [];
  let next = firstNumber;
  for (const number of [...new Set(used)].sort((a, b) => a - b)) {
    if (number > next) gaps.push({ from: next, to: number - 1 });
    next = Math.max(next, number + 1);
  }
  return gaps;
}
