/**
 * Days that count in a question: until when it may be asked, and by when whoever is called on must have acted. All are
 * local dates of the agreement, and each lasts until its midnight there. Nothing here reads a clock.
 */
import { dateOfDayNumber, dayNumber, type LocalDate } from '../dates/local-date.ts';

/** Days for a round of tests where the agreement names none. Common practice, no source. */
export const USUAL_TEST_DAYS = 14;

/**
 * A figure that one side entered counts once the other has confirmed it, or has said nothing for so many days. Common
 * practice, no source.
 */
export const ANSWER_DAYS = 5;

/** Whoever must act by a day is reminded when so many are left. Common practice, no source. */
export const REMINDER_DAYS = 3;

/** 7 days after 2026-10-28 is 2026-11-04, whatever the clocks did in between. */
export function daysLater(date: LocalDate, days: number): LocalDate {
  return dateOfDayNumber(dayNumber(date) + days);
}

/** The last day on which a figure may be questioned that was reported on a day. */
export function lastDayToAsk(reportedOn: LocalDate, askWithinDays: string): LocalDate {
  return daysLater(reportedOn, Number(askWithinDays));
}

/** The day from which a figure counts that nobody has answered. */
export function countsUnansweredFrom(enteredOn: LocalDate): LocalDate {
  return daysLater(enteredOn, ANSWER_DAYS + 1);
}
