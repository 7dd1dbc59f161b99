/**
 * Which quote a reference's rule takes for a load, or why there is none yet. A price is never guessed.
 */
import type { ReferenceRule } from '../agreement/document.ts';
import { daysBetween, type LocalDate, monthOf, parseLocalDate } from '../dates/local-date.ts';
import { add, decimal, type Exact, ratio, ZERO } from '../numbers/exact.ts';
import { type Rounding, roundTo } from '../numbers/rounding.ts';
import {
  isClosed,
  isMonthClosed,
  type PriceSeries,
  type Quote,
  quotesOfMonth,
  quotesUpTo,
} from './price-series.ts';

/** Decimals to which a mean of quotes is rounded. */
export const MEAN_PLACES = 4;

export interface FoundQuote {
  /** The quote or the mean of quotes, before basis, floor and ceiling. */
  readonly quote: Exact;
  /** Dates of the quotes that it came from, oldest first; none for a fixed price. */
  readonly quotedOn: readonly LocalDate[];
}

export type QuoteLack = {
  readonly reason: 'no-quote' | 'not-elected' | 'month-open';
  readonly detail: string;
};

export interface QuoteRequest {
  readonly rule: ReferenceRule;
  /** Name of the series, for the words. */
  readonly name: string;
  readonly series: PriceSeries;
  readonly deliveredOn: LocalDate;
  /** The date that the seller named for this load and series, if any. */
  readonly electedOn: LocalDate | undefined;
  readonly rounding: Rounding;
}

/**
 * Applies the rule. `delivery-day` on 2026-09-13, with quotes of the 11th and the 14th, takes that of the 11th;
 * with a quote of the 11th alone the 13th is still open, and the answer is `no-quote`.
 */
export function findQuote(request: QuoteRequest): FoundQuote | QuoteLack {
  const { rule, name, series, deliveredOn, electedOn } = request;
  if (rule.kind === 'fixed') return { quote: decimal(rule.price), quotedOn: [] };
  if (series.length === 0) return noQuote(`There is no quote of ${name} at all`);
  switch (rule.kind) {
    case 'delivery-day':
      return quoteOfDay(request, deliveredOn, rule.maxAgeDays);
    case 'average':
      return averageQuote(request, rule);
    case 'month-average':
      return monthAverage(request);
    case 'seller-elects': {
      if (electedOn !== undefined) return quoteOfDay(request, electedOn, rule.maxAgeDays);
      const end = parseLocalDate(rule.to);
      if (rule.default !== 'window-end' || end === undefined) {
        return {
          reason: 'not-elected',
          detail: `The seller has not named a pricing date for ${name} (from ${rule.from} to ${rule.to})`,
        };
      }
      if (isClosed(series, end)) return quoteOfDay(request, end, rule.maxAgeDays);
      return {
        reason: 'not-elected',
        detail: `The seller has not named a pricing date for ${name}; without one the price as of ${rule.to} counts, which is not quoted yet`,
      };
    }
  }
}

function noQuote(detail: string): QuoteLack {
  return { reason: 'no-quote', detail };
}

function stillOpen({ name, series }: QuoteRequest, date: LocalDate): QuoteLack {
  return noQuote(
    `The quotes of ${name} end on ${series.at(-1)?.date ?? 'no date'}; the load is priced once there is one of ${date} or later`,
  );
}

function tooOld(
  { name }: QuoteRequest,
  quote: Quote,
  on: { date: LocalDate; maxAgeDays: string },
): QuoteLack {
  const age = daysBetween(quote.date, on.date);
  return noQuote(
    `The quote of ${name} before ${on.date} is of ${quote.date}, ${age} days old; at most ${on.maxAgeDays} are agreed`,
  );
}

function isTooOld(quote: Quote, date: LocalDate, maxAgeDays: string | undefined): maxAgeDays is string {
  return maxAgeDays !== undefined && daysBetween(quote.date, date) > Number(maxAgeDays);
}

function quoteOfDay(
  request: QuoteRequest,
  date: LocalDate,
  maxAgeDays: string | undefined,
): FoundQuote | QuoteLack {
  if (!isClosed(request.series, date)) return stillOpen(request, date);
  const [quote] = quotesUpTo(request.series, date, 1);
  if (!quote) return noQuote(`There is no quote of ${request.name} on or before ${date}`);
  if (isTooOld(quote, date, maxAgeDays)) return tooOld(request, quote, { date, maxAgeDays });
  return { quote: quote.price, quotedOn: [quote.date] };
}

function averageQuote(
  request: QuoteRequest,
  rule: Extract<ReferenceRule, { kind: 'average' }>,
): FoundQuote | QuoteLack {
  const { name, series, deliveredOn } = request;
  if (!isClosed(series, deliveredOn)) return stillOpen(request, deliveredOn);
  const wanted = Number(rule.quotes);
  const quotes = quotesUpTo(series, deliveredOn, wanted);
  const newest = quotes.at(-1);
  if (!newest || quotes.length < wanted) {
    return noQuote(`${wanted} quotes of ${name} are needed up to ${deliveredOn}; there are ${quotes.length}`);
  }
  if (isTooOld(newest, deliveredOn, rule.maxAgeDays)) {
    return tooOld(request, newest, { date: deliveredOn, maxAgeDays: rule.maxAgeDays });
  }
  return meanOfQuotes(quotes, request.rounding);
}

function monthAverage(request: QuoteRequest): FoundQuote | QuoteLack {
  const month = monthOf(request.deliveredOn);
  if (!isMonthClosed(request.series, month)) {
    return {
      reason: 'month-open',
      detail: `The month ${month} is not over for ${request.name}: a quote of a later month closes it`,
    };
  }
  const quotes = quotesOfMonth(request.series, month);
  return quotes.length === 0
    ? noQuote(`There is no quote of ${request.name} in ${month}`)
    : meanOfQuotes(quotes, request.rounding);
}

/** The plain mean of some quotes, rounded to 4 decimals. Throws for none. */
export function meanOfQuotes(quotes: readonly Quote[], rounding: Rounding): FoundQuote {
  const sum = quotes.reduce((total, quote) => add(total, quote.price), ZERO);
  const mean = ratio(sum.n, sum.d * BigInt(quotes.length));
  return { quote: roundTo(mean, MEAN_PLACES, rounding), quotedOn: quotes.map((quote) => quote.date) };
}
