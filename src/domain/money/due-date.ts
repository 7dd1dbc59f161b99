/**
 * When an invoice falls due by the agreed terms, and until when an early payment earns its discount.
 */
import { dateOfDayNumber, dayNumber, type LocalDate, parseLocalDate } from '../dates/local-date.ts';

/** The terms of payment as an agreement's conditions say them. */
export interface DueTerms {
  readonly netDays?: string | undefined;
  readonly from?: 'delivery' | 'settlement' | 'invoice' | undefined;
  readonly dayOfMonth?: string | undefined;
  readonly deferredTo?: string | undefined;
}

/** The days that an invoice's due date may be counted from. */
export interface InvoiceDays {
  readonly issuedOn: LocalDate;
  /** Of the loads on it: the last delivery and the last settlement; absent where there are none. */
  readonly lastDeliveredOn?: LocalDate | undefined;
  readonly lastSettledOn?: LocalDate | undefined;
}

/**
 * The day on which an invoice is due, which is still in time. Never before it is issued, since nobody can pay what is not
 * there; without terms it is due on the day it is issued.
 */
export function dueOn(terms: DueTerms, days: InvoiceDays): LocalDate {
  return later(agreedDay(terms, days), days.issuedOn);
}

function agreedDay(terms: DueTerms, { issuedOn, lastDeliveredOn, lastSettledOn }: InvoiceDays): LocalDate {
  if (terms.deferredTo !== undefined) return terms.deferredTo as LocalDate;
  if (terms.dayOfMonth !== undefined) return dayOfNextMonth(issuedOn, Number(terms.dayOfMonth));
  if (terms.netDays === undefined) return issuedOn;
  const start =
    terms.from === 'delivery' ? lastDeliveredOn : terms.from === 'settlement' ? lastSettledOn : issuedOn;
  return daysAfter(start ?? issuedOn, Number(terms.netDays));
}

/** That day of the month after a date's own; the month's last where it has no such day: 2026-01-20 and 31 is 2026-02-28. */
export function dayOfNextMonth(date: LocalDate, day: number): LocalDate {
  const [year = 0, month = 0] = date.split('-').map(Number);
  const [nextYear, nextMonth] = month === 12 ? [year + 1, 1] : [year, month + 1];
  for (let last = day; last > 28; last--) {
    const found = parseLocalDate(dateText(nextYear, nextMonth, last));
    if (found) return found;
  }
  return dateText(nextYear, nextMonth, Math.min(day, 28));
}

function dateText(year: number, month: number, day: number): LocalDate {
  return `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}` as LocalDate;
}

/** The date so many days after another. */
export function daysAfter(date: LocalDate, days: number): LocalDate {
  return dateOfDayNumber(dayNumber(date) + days);
}

function later(a: LocalDate, b: LocalDate): LocalDate {
  return a < b ? b : a;
}
