/**
 * Pricing a season's loads again by the season's own figures: the mean of all quotes of a window in the place of the quotes
 * that each load was priced by, and the average test of all loads in the place of each load's own.
 */
import type { Agreement, Reference } from '../agreement/document.ts';
import { isConstituent, TESTED, type Tested } from '../agreement/measures.ts';
import type { LocalDate } from '../dates/local-date.ts';
import { decimalPlaces, type Exact, MAX_DECIMAL_LENGTH, multiply, percent } from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import { type Rounding, roundTo } from '../numbers/rounding.ts';
import { meanOfQuotes } from '../prices/find-quote.ts';
import { isClosed, type PriceSeries } from '../prices/price-series.ts';
import type { ReferencePrice } from '../prices/reference-price.ts';
import { type Weighted, weightedMean } from '../progress/spread.ts';
import { type LabResult, reportedFigure, type TestRules, usedFigure } from '../samples/lab-result.ts';

export interface QuoteWindow {
  readonly from: LocalDate;
  readonly to: LocalDate;
}

/** The mean of a window, and of how many quotes it is. */
export interface WindowMean {
  readonly series: string;
  readonly mean: Exact;
  readonly quotes: number;
}

/**
 * The plain mean of all quotes from the first day to the last, both included, rounded to 4 decimals; or, in words, why it is
 * not known yet. Quotes of 4.20, 4.25 and 4.31 are 4.2533.
 */
export function windowMean(
  {
    name,
    series,
    rounding,
  }: { readonly name: string; readonly series: PriceSeries; readonly rounding: Rounding },
  { from, to }: QuoteWindow,
): WindowMean | { readonly waits: string } {
  if (!isClosed(series, to)) {
    const newest = series.at(-1);
    const end = newest ? `ends on ${newest.date}` : 'has no quote at all';
    return { waits: `the series ${name} ${end}; a quote of ${to} or later closes the days to average` };
  }
  const within = series.filter(({ date }) => date >= from && date <= to);
  if (within.length === 0) return { waits: `the series ${name} has no quote from ${from} to ${to}` };
  return { series: name, mean: meanOfQuotes(within, rounding).quote, quotes: within.length };
}

/** The rules that an average of the season stands in for. */
const FOLLOWS_MARKET: ReadonlySet<Reference['rule']['kind']> = new Set<Reference['rule']['kind']>([
  'delivery-day',
  'average',
  'month-average',
]);

/** The series that price terms follow by the day of delivery or by a mean: those that a season's mean replaces. */
export function seriesToAverage({ price, references }: Pick<Agreement, 'price' | 'references'>): string[] {
  const used = price.flatMap((term) => ('at' in term ? (references[term.at.reference] ?? []) : []));
  return [
    ...new Set(used.flatMap(({ rule, series }) => (FOLLOWS_MARKET.has(rule.kind) ? (series ?? []) : []))),
  ];
}

/**
 * The agreement with every price that a load was settled at standing fixed: the season's mean where its series has one and
 * its rule follows the market, else the quote that the load was settled by. Basis, floor and ceiling stay.
 */
export function atFixedPrices(
  agreement: Agreement,
  {
    settled,
    means,
  }: {
    readonly settled: ReadonlyMap<string, Pick<ReferencePrice, 'quote'>>;
    readonly means: ReadonlyMap<string, WindowMean>;
  },
): Agreement {
  const references = Object.entries(agreement.references).map(([name, reference]) => {
    const mean = FOLLOWS_MARKET.has(reference.rule.kind) ? means.get(reference.series ?? '') : undefined;
    const price = mean?.mean ?? settled.get(name)?.quote;
    if (!price) return [name, reference] as const;
    const rule = { kind: 'fixed' as const, price: printDecimal(price, MAX_DECIMAL_LENGTH) };
    return [name, { ...reference, rule }] as const;
  });
  return { ...agreement, references: Object.fromEntries(references) };
}

/** A settled load that was tested. */
export interface TestedLoad {
  readonly netPounds: Exact;
  readonly result: LabResult;
  /** Of the version that it was delivered under. */
  readonly rules: TestRules;
}

/** Measures that are shares of the dry matter are weighed by it, all others by the load as it came. */
function weightOf({ netPounds, result, rules }: TestedLoad, measure: Tested): Exact {
  if (!isConstituent(measure)) return netPounds;
  const dryMatter = usedFigure(result, 'dry-matter', rules);
  if (!dryMatter) throw new Error('A result has no dry matter');
  return multiply(netPounds, percent(dryMatter));
}

/** The decimals of a figure that goes in: those that it was reported with, less those that the agreement rounds away. */
function placesOf({ result, rules }: TestedLoad, measure: Tested): number {
  const reported = reportedFigure(result, measure);
  const own = reported ? (decimalPlaces(reported) ?? 0) : 0;
  return Math.min(own, rules.decimals.get(measure) ?? own);
}

/**
 * The season's average test: each measure over the loads that have it, as the agreement uses it, rounded to the decimals of
 * the most precise figure in it. 70.0 % in 28,800 lb of dry matter and 74.0 % in 13,000 lb are 71.2 %. Undefined where no
 * load was tested.
 */
export function seasonTest(loads: readonly TestedLoad[], rounding: Rounding): LabResult | undefined {
  const measured = TESTED.flatMap((measure) => {
    const weighted: Weighted[] = [];
    let places = 0;
    for (const load of loads) {
      const value = usedFigure(load.result, measure, load.rules);
      if (value === undefined) continue;
      weighted.push({ value, weight: weightOf(load, measure) });
      places = Math.max(places, placesOf(load, measure));
    }
    const mean = weightedMean(weighted);
    return mean ? [{ measure, figure: roundTo(mean, places, rounding) }] : [];
  });
  const dryMatter = measured.find(({ measure }) => measure === 'dry-matter');
  if (!dryMatter) return undefined;
  const others = measured.filter((one) => one !== dryMatter);
  return {
    sample: 'the season’s average',
    basis: 'dry-matter',
    dryMatter: dryMatter.figure,
    reported: others.map(({ measure }) => measure),
    figures: others.map(({ figure }) => figure),
  };
}

/** One settled load, and what it comes to by the season's figures; in minor units. */
export interface LoadAgain {
  readonly ticket: string;
  readonly deliveredOn: LocalDate;
  readonly settled: bigint;
  readonly again: bigint;
}

/** By which figures loads were priced again. */
export interface SeasonFigures {
  readonly means: readonly WindowMean[];
  readonly test: LabResult | undefined;
}

/** What pricing a season again comes to; in minor units. */
export interface TrueUpOutcome {
  readonly figures: SeasonFigures;
  /** Of all settled loads. */
  readonly loads: number;
  readonly settled: bigint;
  readonly again: bigint;
  /** Those whose figure changes: together they are what is owed. */
  readonly changed: readonly LoadAgain[];
  /** Above zero is owed by the buyer. */
  readonly owed: bigint;
}

/** Loads of 1,000.00 and 1,200.00 that come to 1,010.00 and 1,200.00 again: one changes, and the buyer owes 10.00. */
export function trueUpOf(loads: readonly LoadAgain[], figures: SeasonFigures): TrueUpOutcome {
  const sum = (pick: (load: LoadAgain) => bigint) => loads.reduce((total, load) => total + pick(load), 0n);
  const [settled, again] = [sum((load) => load.settled), sum((load) => load.again)];
  return {
    ...{ figures, loads: loads.length, settled, again },
    changed: loads.filter((load) => load.again !== load.settled),
    owed: again - settled,
  };
}
