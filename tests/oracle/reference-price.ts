/**
 * The reference price R of one load, or the reason why there is none yet.
 * Quotes are looked up by date; an open date (no quote of that date or later) is never priced.
 */
import {
  add,
  divide,
  type Fraction,
  greatest,
  least,
  parse,
  type Rounding,
  rounded,
  whole,
  zero,
} from './fraction.ts';
import { daysBetween } from './local-date.ts';
import type { OracleSeason, Reference } from './season.ts';

export type ReferencePrice = { price: Fraction; quote: Fraction; quotedOn: string[] };
export type Lack = 'no-quote' | 'not-elected' | 'month-open' | 'outside-table';
export type ReferencePricer = (name: string, ticket: string, deliveredOn: string) => ReferencePrice | Lack;

type Quote = { date: string; price: string };
type Found = { quote: Fraction; quotedOn: string[] };

/** How many quotes are dated on or before `date`. */
function countUpTo(quotes: Quote[], date: string): number {
  let low = 0;
  let high = quotes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((quotes[middle]?.date ?? '') <= date) low = middle + 1;
    else high = middle;
  }
  return low;
}

function isClosed(quotes: Quote[], date: string): boolean {
  return (quotes.at(-1)?.date ?? '') >= date;
}

function meanOf(quotes: Quote[], rounding: Rounding): Found | Lack {
  if (quotes.length === 0) return 'no-quote';
  const sum = quotes.reduce((total, quote) => add(total, parse(quote.price)), zero);
  const mean = rounded(divide(sum, whole(quotes.length)), 4, rounding);
  return { quote: mean, quotedOn: quotes.map((quote) => quote.date) };
}

function lastQuotes(quotes: Quote[], date: string, count: number, maxAgeDays?: string): Quote[] {
  if (!isClosed(quotes, date)) return [];
  const end = countUpTo(quotes, date);
  const newest = quotes[end - 1];
  if (newest === undefined || end < count) return [];
  if (maxAgeDays !== undefined && daysBetween(newest.date, date) > Number(maxAgeDays)) return [];
  return quotes.slice(end - count, end);
}

function singleQuote(quotes: Quote[], date: string, maxAgeDays?: string): Found | Lack {
  const quote = lastQuotes(quotes, date, 1, maxAgeDays)[0];
  return quote === undefined ? 'no-quote' : { quote: parse(quote.price), quotedOn: [quote.date] };
}

type Question = {
  reference: Reference;
  quotes: Quote[];
  deliveredOn: string;
  elected: string | undefined;
  rounding: Rounding;
};

function find({ reference, quotes, deliveredOn, elected, rounding }: Question): Found | Lack {
  const { rule } = reference;
  if (rule.kind === 'fixed') return { quote: parse(rule.price), quotedOn: [] };
  const latest = quotes.at(-1);
  if (latest === undefined) return 'no-quote';
  switch (rule.kind) {
    case 'delivery-day':
      return singleQuote(quotes, deliveredOn, rule.maxAgeDays);
    case 'average':
      return meanOf(lastQuotes(quotes, deliveredOn, Number(rule.quotes), rule.maxAgeDays), rounding);
    case 'month-average': {
      const month = deliveredOn.slice(0, 7);
      if (latest.date.slice(0, 7) <= month) return 'month-open';
      const ofMonth = quotes.slice(countUpTo(quotes, `${month}-00`), countUpTo(quotes, `${month}-99`));
      return meanOf(ofMonth, rounding);
    }
    case 'seller-elects': {
      if (elected !== undefined) return singleQuote(quotes, elected, rule.maxAgeDays);
      if (rule.default === undefined || !isClosed(quotes, rule.to)) return 'not-elected';
      return singleQuote(quotes, rule.to, rule.maxAgeDays);
    }
  }
}

function heldPrice(reference: Reference, quote: Fraction): Fraction {
  let price = reference.basis === undefined ? quote : add(quote, parse(reference.basis));
  if (reference.floor !== undefined) price = greatest(price, parse(reference.floor));
  if (reference.ceiling !== undefined) price = least(price, parse(reference.ceiling));
  return price;
}

function quotesBySeries(season: OracleSeason): Map<string, Quote[]> {
  const bySeries = new Map<string, Quote[]>();
  for (const { series, date, price } of season.prices) {
    const quotes = bySeries.get(series);
    if (quotes === undefined) bySeries.set(series, [{ date, price }]);
    else quotes.push({ date, price });
  }
  for (const quotes of bySeries.values()) quotes.sort((a, b) => (a.date < b.date ? -1 : 1));
  return bySeries;
}

export function prepareReferencePrices(season: OracleSeason): ReferencePricer {
  const rounding = season.agreement.rounding ?? 'half-up';
  const bySeries = quotesBySeries(season);
  const elections = new Map(season.elections.map((row) => [`${row.ticket}\n${row.series}`, row.date]));
  const known = new Map<string, ReferencePrice | Lack>();
  return (name, ticket, deliveredOn) => {
    const reference = season.agreement.references[name];
    if (reference === undefined) throw new Error(`no reference "${name}"`);
    const series = reference.series ?? '';
    const elected = elections.get(`${ticket}\n${series}`);
    const key = `${name}\n${deliveredOn}\n${elected ?? ''}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const found = find({ reference, quotes: bySeries.get(series) ?? [], deliveredOn, elected, rounding });
    const priced = typeof found === 'string' ? found : { ...found, price: heldPrice(reference, found.quote) };
    known.set(key, priced);
    return priced;
  };
}
