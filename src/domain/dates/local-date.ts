/**
 * Calendar dates as `YYYY-MM-DD` strings, which sort as text. No clock and no time zone here.
 */

declare const localDate: unique symbol;
/** A checked `YYYY-MM-DD`. */
export type LocalDate = string & { readonly [localDate]: true };

const SHAPE = /^(\d{4})-(\d{2})-(\d{2})$/;
/** A year outside these is a slip of the hand. */
const FIRST_YEAR = 1970;
const LAST_YEAR = 2199;
const MILLISECONDS_A_DAY = 86_400_000;

/** A `YYYY-MM-DD` that is on the calendar, else undefined: 2026-02-30 is not. */
export function parseLocalDate(text: string): LocalDate | undefined {
  const match = SHAPE.exec(text);
  if (!match) return undefined;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const possible =
    year >= FIRST_YEAR &&
    year <= LAST_YEAR &&
    month >= 1 &&
    month <= 12 &&
    day >= 1 &&
    day <= daysInMonth(year, month);
  return possible ? (text as LocalDate) : undefined;
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** Days since 1970-01-01. */
export function dayNumber(date: LocalDate): number {
  return Date.parse(`${date}T00:00:00Z`) / MILLISECONDS_A_DAY;
}

/** The date that many days after 1970-01-01. */
export function dateOfDayNumber(day: number): LocalDate {
  return new Date(day * MILLISECONDS_A_DAY).toISOString().slice(0, 10) as LocalDate;
}

/** Whole days from one date to a later one: 2026-02-28 to 2026-03-01 is 1. */
export function daysBetween(from: LocalDate, to: LocalDate): number {
  return dayNumber(to) - dayNumber(from);
}

/** `YYYY-MM` of a date. */
export function monthOf(date: LocalDate): string {
  return date.slice(0, 7);
}
