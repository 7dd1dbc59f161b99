/**
 * A season by weeks, Monday to Sunday by the agreement's own calendar.
 */
import { dateOfDayNumber, dayNumber, type LocalDate } from '../dates/local-date.ts';
import { type CountedLoad, type Delivered, deliveredOf } from '../progress/progress.ts';

const DAYS_A_WEEK = 7;
/** 1970-01-01 was a Thursday, three days after its Monday. */
const DAYS_AFTER_MONDAY = 3;

/** Weights in pounds, value in minor units, as `Delivered` has them. */
export interface SeasonWeek extends Delivered {
  readonly monday: LocalDate;
  readonly sunday: LocalDate;
  /** 1 in the week of the first delivery, counted on through weeks without any. */
  readonly nth: number;
}

/** The Monday of a date's week: 2026-09-13, a Sunday, has that of 2026-09-07. */
export function mondayOf(date: LocalDate): LocalDate {
  const day = dayNumber(date);
  const after = (day + DAYS_AFTER_MONDAY) % DAYS_A_WEEK;
  return dateOfDayNumber(day - after);
}

/** The weeks in which something was delivered, oldest first. */
export function seasonWeeks(counted: readonly CountedLoad[]): readonly SeasonWeek[] {
  const weeks = new Map<LocalDate, CountedLoad[]>();
  for (const one of counted) {
    const monday = mondayOf(one.load.deliveredOn);
    const week = weeks.get(monday);
    if (week) week.push(one);
    else weeks.set(monday, [one]);
  }
  const sorted = [...weeks].sort(([a], [b]) => (a < b ? -1 : 1));
  const first = sorted[0]?.[0];
  return sorted.map(([monday, loads]) => ({
    ...deliveredOf(loads),
    monday,
    sunday: dateOfDayNumber(dayNumber(monday) + DAYS_A_WEEK - 1),
    nth: first === undefined ? 1 : (dayNumber(monday) - dayNumber(first)) / DAYS_A_WEEK + 1,
  }));
}
