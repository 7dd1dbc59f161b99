/**
 * Public price series: quotes by date, in rising order. A date is closed once its series holds a quote of that date
 * or later; no rule prices an open date, so a quote that arrives later, dated later, changes nothing settled.
 */
import { daysBetween, type LocalDate } from '../dates/local-date.ts';
import { add, compare, type Exact, larger, smaller } from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';

export interface Quote {
  readonly date: LocalDate;
  /** Money per unit of the series. */
  readonly price: Exact;
}

/** Quotes of one series, oldest first, no two of one date. */
export type PriceSeries = readonly Quote[];

/** A mistyped year or month shows as a gap longer than this between neighbouring quotes. */
export const LONGEST_USUAL_GAP_DAYS = 31;

/** Quotes in any order as a series, oldest first. */
export function sortQuotes(quotes: readonly Quote[]): PriceSeries {
  return quotes.toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
}

/** How many quotes are of that date or earlier. */
function countUpTo(series: PriceSeries, date: LocalDate): number {
  let low = 0;
  let high = series.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((series[middle]?.date ?? '') <= date) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** True once the series holds a quote of that date or later. */
export function isClosed(series: PriceSeries, date: LocalDate): boolean {
  const newest = series.at(-1);
  return newest !== undefined && newest.date >= date;
}

/** True once the series holds a quote of a later month (`YYYY-MM`). */
export function isMonthClosed(series: PriceSeries, month: string): boolean {
  const newest = series.at(-1);
  return newest !== undefined && newest.date.slice(0, 7) > month;
}

/** The newest quotes up to and including a date, at most `count` of them, oldest first. */
export function quotesUpTo(series: PriceSeries, date: LocalDate, count: number): readonly Quote[] {
  const end = countUpTo(series, date);
  return series.slice(Math.max(0, end - count), end);
}

/** All quotes of a calendar month (`YYYY-MM`), oldest first. */
export function quotesOfMonth(series: PriceSeries, month: string): readonly Quote[] {
  return series.filter((quote) => quote.date.startsWith(month));
}

/** Two quotes that follow one another. */
export interface Jump {
  readonly before: Quote;
  readonly after: Quote;
}

/** Neighbouring quotes of which one is more than twice the other: a decimal point in the wrong place. */
export function suspectJumps(series: PriceSeries): Jump[] {
  return series.flatMap((after, index) => {
    const before = series[index - 1];
    if (!before) return [];
    const [low, high] = [smaller(before.price, after.price), larger(before.price, after.price)];
    return compare(high, add(low, low)) > 0 ? [{ before, after }] : [];
  });
}

/** A jump in words: "… goes from 4.2 on 2026-09-14 to 42.5 on 2026-09-15; is a price mistyped?" */
export function tellJump(series: string, { before, after }: Jump): string {
  return `${series} goes from ${printDecimal(before.price)} on ${before.date} to ${printDecimal(after.price)} on ${after.date}; is a price mistyped?`;
}

/** Neighbouring quotes more than 31 days apart. */
export function longGaps(
  series: PriceSeries,
): { readonly from: LocalDate; readonly to: LocalDate; readonly days: number }[] {
  return series.flatMap((quote, index) => {
    const before = series[index - 1];
    if (!before) return [];
    const days = daysBetween(before.date, quote.date);
    return days > LONGEST_USUAL_GAP_DAYS ? [{ from: before.date, to: quote.date, days }] : [];
  });
}
