/**
 * Calendar dates as `YYYY-MM-DD` strings, which sort as text. No clock and no time zone here.
 */

declare const localDate: unique symbol;
/** A checked `YYYY-MM-DD`. */
export type LocalDate = string & { readonly [localDate]: true };

const SHAPE = /^(\d{4})-(\d{2})-(\d{2})$/;
const MILLISECONDS_A_DAY = 86_400_000;

/** A `YYYY-MM-DD` that is on the calendar, else undefined: 2026-02-30 is not. */
export function parseLocalDate(text: string): LocalDate | undefined {
  const match = SHAPE.exec(text);
  if (!match) return undefined;
  const day = new Date(Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3])));
  // Years 0 to 99 and impossible days come back from Date as other dates.
  return day.toISOString().startsWith(text) ? (text as LocalDate) : undefined;
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
