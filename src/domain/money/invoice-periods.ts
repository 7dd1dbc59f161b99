/**
 * Which loads share an invoice, and when all of a period is in.
 */
import type { INVOICED_BY } from '../agreement/conditions.ts';
import { dateOfDayNumber, dayNumber, type LocalDate, monthOf } from '../dates/local-date.ts';
import { dayOfNextMonth, daysAfter } from './due-date.ts';

export type InvoicedBy = (typeof INVOICED_BY)[number];

export interface InvoicePeriod {
  /** Loads with the same key share an invoice. */
  readonly key: string;
  /** The last day of the period; null where only the parties can say that a season is over. */
  readonly last: LocalDate | null;
}

/** The period of a load: "week of 2026-09-14" ends on Sunday 2026-09-20. */
export function invoicePeriod(
  by: InvoicedBy,
  { deliveredOn, loadId }: { readonly deliveredOn: LocalDate; readonly loadId: string },
): InvoicePeriod {
  switch (by) {
    case 'load':
      // A load is complete as it comes.
      return { key: loadId, last: daysAfter(deliveredOn, -1) };
    case 'day':
      return { key: deliveredOn, last: deliveredOn };
    case 'week': {
      const monday = mondayOf(deliveredOn);
      return { key: monday, last: daysAfter(monday, 6) };
    }
    case 'month': {
      const firstOfNext = dayOfNextMonth(deliveredOn, 1);
      return { key: monthOf(deliveredOn), last: daysAfter(firstOfNext, -1) };
    }
    case 'season':
      return { key: 'season', last: null };
  }
}

/** Monday of a date's week (ISO 8601). 1970-01-01 was a Thursday. */
function mondayOf(date: LocalDate): LocalDate {
  const day = dayNumber(date);
  return dateOfDayNumber(day - ((((day + 3) % 7) + 7) % 7));
}
