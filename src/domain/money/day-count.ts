/**
 * Days between two dates as interest counts them, and the year that they are a part of.
 * `30/360` is the bond basis: 2006 ISDA Definitions section 4.16(f), which is ISO 20022 code A001, "30/360 (ISDA) or 30/360
 * (American Basic Rule)". Day 31 counts as 30 at the start, and at the end where the start is 30 or 31; the end of February
 * counts as the day it is. (30E/360 would take an end on day 31 back always, and the SIA's rule knows the end of February.)
 */
import { daysBetween, type LocalDate } from '../dates/local-date.ts';

export const DAY_COUNTS = ['actual/365', 'actual/360', '30/360'] as const;
export type DayCount = (typeof DAY_COUNTS)[number];

/** Days in the year of a day count. */
export function yearDays(dayCount: DayCount): number {
  return dayCount === 'actual/365' ? 365 : 360;
}

/** Days from one date to a later one: 2006-02-28 to 2006-08-31 is 184, and 183 by 30/360. */
export function countDays(from: LocalDate, to: LocalDate, dayCount: DayCount): number {
  if (dayCount !== '30/360') return daysBetween(from, to);
  const [a, b] = [partsOf(from), partsOf(to)];
  const start = Math.min(a.day, 30);
  const end = b.day === 31 && start === 30 ? 30 : b.day;
  return (b.year - a.year) * 360 + (b.month - a.month) * 30 + (end - start);
}

function partsOf(date: LocalDate) {
  const [year = 0, month = 0, day = 0] = date.split('-').map(Number);
  return { year, month, day };
}
