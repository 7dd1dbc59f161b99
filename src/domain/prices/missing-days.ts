/**
 * Days of a price series that have no quote. Markets are closed on weekends; a weekday without a quote is a holiday, or
 * a quote that nobody entered, and only a person can tell.
 */
import { dateOfDayNumber, dayNumber, type LocalDate } from '../dates/local-date.ts';

/** Of a series with fewer quotes than this share of its weekdays, a missing one says nothing: it is no daily price. */
const DAILY = 0.5;
/** 1970-01-01, day 0, was a Thursday. */
const THURSDAY = 4;

/**
 * Weekdays without a quote between the first quote and the last, oldest first. Of quotes on Friday 2026-09-04 and
 * Tuesday the 8th it is Monday the 7th.
 */
export function missingWeekdays(dates: readonly LocalDate[]): readonly LocalDate[] {
  const [first, last] = [dates[0], dates.at(-1)];
  if (first === undefined || last === undefined) return [];
  const quoted = new Set(dates);
  const weekdays: LocalDate[] = [];
  for (let day = dayNumber(first); day <= dayNumber(last); day++) {
    if (isWeekday(day)) weekdays.push(dateOfDayNumber(day));
  }
  const missing = weekdays.filter((date) => !quoted.has(date));
  return missing.length > weekdays.length * DAILY ? [] : missing;
}

function isWeekday(day: number): boolean {
  const weekday = (day + THURSDAY) % 7;
  return weekday !== 0 && weekday !== 6;
}
