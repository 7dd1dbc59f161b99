/**
 * A season as its page tells it, every figure as the reader writes it.
 */
import { MEASURE_NAMES, MEASURE_UNITS } from '../../domain/agreement/measures.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { printDecimal, printFixed } from '../../domain/numbers/printing.ts';
import {
  type Delivered,
  deliveredOf,
  type TestProgress,
  type Weighting,
} from '../../domain/progress/progress.ts';
import type { DaysToMoney, Wait } from '../../domain/season/days-to-money.ts';
import { type PricePaid, pricesPaid } from '../../domain/season/price-paid.ts';
import { seasonSpread, type TestGroup } from '../../domain/season/test-groups.ts';
import { seasonWeeks } from '../../domain/season/weeks.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import type { Season } from './gather-season.ts';
import {
  POUND_PLACES,
  priceFor,
  printMoney,
  printTons,
  type SeasonPrinting,
  TEST_PLACES,
} from './season-printing.ts';

/** Loads, weights in the season's tons, and the value of those that have settled. */
export interface SumView {
  readonly loads: number;
  readonly wetTons: string;
  /** Of the tested loads. */
  readonly dryTons: string;
  readonly untestedLoads: number;
  readonly value: string;
  readonly unsettledLoads: number;
}

export interface WeekView extends SumView {
  readonly monday: LocalDate;
  readonly sunday: LocalDate;
  /** 1 in the week of the first delivery; weeks without any are counted and not listed. */
  readonly nth: number;
  /** A plain decimal string of the value, for a picture. */
  readonly amount: string;
}

export interface PriceView {
  readonly loads: number;
  readonly leftOut: number;
  readonly value: string;
  readonly tons: string;
  /** Undefined where there is nothing to divide by. */
  readonly perTon: string | undefined;
  /** For a pound or a kilogram. */
  readonly perWeight: string | undefined;
}

/** Figures of a test, and the same as plain decimal strings for a picture. */
export interface SpreadRow {
  /** The date, truck or sample. */
  readonly of: string;
  readonly loads: number;
  readonly results: number;
  readonly least: string;
  readonly median: string;
  readonly greatest: string;
  readonly mean: string;
  readonly plain: Readonly<Record<'least' | 'median' | 'greatest' | 'mean', string>>;
}

export interface MeasureView {
  readonly measure: string;
  readonly name: string;
  readonly unit: string;
  readonly weightedBy: Weighting;
  readonly whole: SpreadRow;
  readonly days: readonly SpreadRow[];
  readonly others: readonly SpreadRow[];
}

/** Days, each load counted once. */
export interface WaitView {
  readonly loads: number;
  readonly median: string;
  /** The same as a plain decimal string, for a picture. */
  readonly plainMedian: string;
  readonly longest: number;
  readonly longestTicket: string;
}

export interface MoneyWaitView {
  readonly invoice: WaitView | undefined;
  readonly notInvoiced: number;
  readonly paid: string;
  /** Days by which half of what was paid had come. */
  readonly median: number | undefined;
  readonly longest: number | undefined;
  readonly unpaid: { readonly documents: number; readonly open: string; readonly held: string | undefined };
}

export interface SeasonView {
  readonly sums: SumView;
  readonly refused: number;
  readonly weeks: readonly WeekView[];
  readonly dryMatter: PriceView;
  readonly starch: PriceView;
  readonly others: 'truck' | 'sample';
  readonly truckless: number;
  readonly measures: readonly MeasureView[];
  readonly settlement: WaitView | undefined;
  /** Undefined for an adviser. */
  readonly money: MoneyWaitView | undefined;
}

export function seasonView(season: Season, printing: SeasonPrinting): SeasonView {
  const { counted, refused, settlement, money } = season;
  const prices = pricesPaid(counted);
  const { others, truckless, measures } = seasonSpread(counted);
  return {
    sums: sumView(deliveredOf(counted), printing),
    refused,
    weeks: weekViews(season, printing),
    dryMatter: priceView(prices.dryMatter, printing),
    starch: priceView(prices.starch, printing),
    others,
    truckless,
    measures: measures.map(({ whole, days, others: byOther }) => ({
      measure: whole.measure,
      name: MEASURE_NAMES[whole.measure],
      unit: MEASURE_UNITS[whole.measure],
      weightedBy: whole.weightedBy,
      whole: spreadRow({ ...whole, of: '' }, printing),
      days: days.map((day) => spreadRow(day, printing)),
      others: byOther.map((other) => spreadRow(other, printing)),
    })),
    settlement: settlement && waitView(settlement, printing),
    money: money && moneyWaitView(money, printing),
  };
}

/** The weeks alone, as a season beside another is drawn. */
export function weekViews(
  { counted }: Pick<Season, 'counted'>,
  printing: SeasonPrinting,
): readonly WeekView[] {
  return seasonWeeks(counted).map((week) => ({
    ...sumView(week, printing),
    monday: week.monday,
    sunday: week.sunday,
    nth: week.nth,
    amount: printAmount(week.value, printing.money),
  }));
}

function sumView(of: Delivered, printing: SeasonPrinting): SumView {
  return {
    loads: of.loads,
    wetTons: printTons(of.wet, printing),
    dryTons: printTons(of.dry, printing),
    untestedLoads: of.untestedLoads,
    value: printMoney(of.value, printing),
    unsettledLoads: of.unsettledLoads,
  };
}

function priceView(
  { loads, leftOut, value, pounds, perPound }: PricePaid,
  printing: SeasonPrinting,
): PriceView {
  const { show, money, ton, weight } = printing;
  return {
    loads,
    leftOut,
    value: printMoney(value, printing),
    tons: printTons(pounds, printing),
    perTon: perPound && show(printFixed(priceFor(perPound, ton, money), money.decimals)),
    perWeight: perPound && show(printFixed(priceFor(perPound, weight, money), POUND_PLACES)),
  };
}

function spreadRow(
  { of, loads, mean, spread }: TestProgress & Pick<TestGroup, 'of'>,
  { show }: SeasonPrinting,
): SpreadRow {
  const plain = {
    least: printFixed(spread.least, TEST_PLACES),
    median: printFixed(spread.median, TEST_PLACES),
    greatest: printFixed(spread.greatest, TEST_PLACES),
    mean: printFixed(mean, TEST_PLACES),
  };
  return {
    of,
    loads,
    results: spread.count,
    least: show(plain.least),
    median: show(plain.median),
    greatest: show(plain.greatest),
    mean: show(plain.mean),
    plain,
  };
}

function waitView({ loads, median, longest, longestTicket }: Wait, { show }: SeasonPrinting): WaitView {
  const plainMedian = printDecimal(median, 1);
  return { loads, median: show(plainMedian), plainMedian, longest, longestTicket };
}

function moneyWaitView(
  { invoice, notInvoiced, money }: Pick<DaysToMoney, 'invoice' | 'notInvoiced' | 'money'>,
  printing: SeasonPrinting,
): MoneyWaitView {
  const { paid, median, longest, unpaid } = money;
  return {
    invoice: invoice && waitView(invoice, printing),
    notInvoiced,
    paid: printMoney(paid, printing),
    median,
    longest,
    unpaid: {
      documents: unpaid.documents,
      open: printMoney(unpaid.open, printing),
      held: unpaid.held === 0n ? undefined : printMoney(unpaid.held, printing),
    },
  };
}
