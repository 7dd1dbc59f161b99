/**
 * What a page shows of an agreement's progress: delivered against committed, means and spread of the tests, the days.
 */
import type { Figures } from '../../documents/figures.ts';
import type { LoadComposition } from '../../documents/strip/load-strip.ts';
import { conditionsOf } from '../../domain/agreement/conditions.ts';
import { MEASURE_NAMES, MEASURE_UNITS } from '../../domain/agreement/measures.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { compare, decimal, type Exact, isZero, ratio, subtract, ZERO } from '../../domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../domain/numbers/printing.ts';
import {
  type AgainstCommitted,
  againstCommitted,
  type CountedLoad,
  type DayProgress,
  type Delivered,
  deliveredOf,
  progressByDay,
  type TestProgress,
  testProgress,
  type Weighting,
} from '../../domain/progress/progress.ts';
import { fromPounds } from '../../domain/quantities/units.ts';
import { type Money, printAmount } from '../../domain/settlement/line.ts';
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import { dayStrip, shareOf, TON_PLACES, type TonPrinting } from './day-strip.ts';
import type { FoundAgreement } from './find-agreement.ts';

/** Weights, loads and money of a day or of all. */
export interface DeliveredView {
  readonly loads: number;
  readonly wetTons: string;
  /** Of tested loads. */
  readonly dryTons: string;
  readonly untestedLoads: number;
  readonly untestedTons: string;
  /** What the settled loads came to. */
  readonly value: string;
  readonly unsettledLoads: number;
}

export interface CommittedView {
  readonly amount: string;
  readonly unit: 'short-ton' | 'tonne';
  readonly weight: 'as-fed' | 'dry-matter';
  readonly tolerancePercent: string | undefined;
  readonly delivered: string;
  readonly least: string;
  readonly most: string;
  readonly standing: AgainstCommitted['standing'];
  /** Until the amount, or beyond it. */
  readonly remaining: string;
  readonly isBeyond: boolean;
  readonly percent: string;
  /** Dry tons are committed, and so many loads have no test yet. */
  readonly uncounted: number;
  /** For a bar, each from 0 to 1 of its length. */
  readonly bar: { readonly delivered: number; readonly least: number; readonly most: number };
}

export interface TestView {
  readonly name: string;
  readonly unit: string;
  readonly mean: string;
  readonly weightedBy: Weighting;
  readonly loads: number;
  readonly results: number;
  readonly least: string;
  readonly lowerQuartile: string;
  readonly median: string;
  readonly upperQuartile: string;
  readonly greatest: string;
  /** Where they lie between the least and the greatest, 0 to 1; undefined where those are one. */
  readonly box:
    | { readonly lower: number; readonly median: number; readonly upper: number; readonly mean: number }
    | undefined;
}

export interface DayView extends DeliveredView {
  readonly date: string;
  readonly first: string;
  readonly last: string;
  /** Trucks an hour, of the clock hours in which any came. */
  readonly perHour: string;
  readonly busiest: { readonly hour: string; readonly loads: number };
  /** The tested loads of the day as one strip. */
  readonly strip: LoadComposition;
}

export interface ProgressView {
  readonly agreementId: string;
  readonly number: string;
  readonly seller: string;
  readonly buyer: string;
  readonly currency: string;
  readonly ton: 'short-ton' | 'tonne';
  readonly delivered: DeliveredView;
  /** Loads that the buyer refused; they count for nothing here. */
  readonly refused: number;
  readonly committed: CommittedView | undefined;
  readonly tests: readonly TestView[];
  /** Oldest first. */
  readonly days: readonly DayView[];
}

interface Printing extends TonPrinting {
  readonly money: Money;
}

export interface ToTell {
  readonly counted: readonly CountedLoad[];
  readonly refused: number;
  readonly figures: Figures;
}

/** All of it from the loads that count. */
export function progressView(found: FoundAgreement, { counted, refused, figures }: ToTell): ProgressView {
  const { row, agreement } = found;
  const { ton } = readerUnits(agreement);
  const money = moneyOf(agreement);
  const printing = { figures, money, ton };
  const delivered = deliveredOf(counted);
  const days = progressByDay(counted);
  const heaviest = days.reduce((most, { wet }) => (compare(wet, most) > 0 ? wet : most), ZERO);
  return {
    agreementId: row.id,
    number: row.number,
    seller: row.sellerName,
    buyer: row.buyerName,
    currency: money.currency,
    ton,
    delivered: deliveredView(delivered, printing),
    refused,
    committed: committedView(found, delivered, figures),
    tests: testProgress(counted).map((test) => testView(test, figures)),
    days: days.map((day) => dayView(day, heaviest, printing)),
  };
}

const TEST_PLACES = 2;

function deliveredView(of: Delivered, { figures, money, ton }: Printing): DeliveredView {
  const tons = (pounds: Exact) => figures.show(printFixed(fromPounds(pounds, ton), TON_PLACES));
  return {
    loads: of.loads,
    wetTons: tons(of.wet),
    dryTons: tons(of.dry),
    untestedLoads: of.untestedLoads,
    untestedTons: tons(of.untestedWet),
    value: figures.show(printAmount(of.value, money)),
    unsettledLoads: of.unsettledLoads,
  };
}

function committedView(
  { agreement }: FoundAgreement,
  delivered: Delivered,
  figures: Figures,
): CommittedView | undefined {
  const volume = conditionsOf(agreement)?.volume;
  if (!volume) return undefined;
  const { amount, unit, weight, tolerancePercent } = volume;
  const committed = {
    amount: decimal(amount),
    unit,
    weight,
    tolerancePercent: tolerancePercent === undefined ? undefined : decimal(tolerancePercent),
  };
  const against = againstCommitted(committed, delivered);
  const tons = (value: Exact) => figures.show(printFixed(value, TON_PLACES));
  const isBeyond = against.remaining.n < 0n;
  const longest = compare(against.delivered, against.most) > 0 ? against.delivered : against.most;
  const ofBar = (value: Exact) => shareOf(value, longest);
  return {
    amount: figures.show(printDecimal(committed.amount)),
    unit,
    weight,
    tolerancePercent: tolerancePercent && figures.show(tolerancePercent),
    delivered: tons(against.delivered),
    least: tons(against.least),
    most: tons(against.most),
    standing: against.standing,
    remaining: tons(isBeyond ? subtract(ZERO, against.remaining) : against.remaining),
    isBeyond,
    percent: figures.show(printFixed(against.percent, 1)),
    uncounted: against.uncounted,
    bar: { delivered: ofBar(against.delivered), least: ofBar(against.least), most: ofBar(against.most) },
  };
}

function testView({ measure, mean, weightedBy, loads, spread }: TestProgress, figures: Figures): TestView {
  const show = (value: Exact) => figures.show(printFixed(value, TEST_PLACES));
  const { least, lowerQuartile, median, upperQuartile, greatest, count } = spread;
  const width = subtract(greatest, least);
  const within = (value: Exact) => shareOf(subtract(value, least), width);
  return {
    name: MEASURE_NAMES[measure],
    unit: MEASURE_UNITS[measure],
    mean: show(mean),
    weightedBy,
    loads,
    results: count,
    least: show(least),
    lowerQuartile: show(lowerQuartile),
    median: show(median),
    upperQuartile: show(upperQuartile),
    greatest: show(greatest),
    box: isZero(width)
      ? undefined
      : {
          lower: within(lowerQuartile),
          median: within(median),
          upper: within(upperQuartile),
          mean: within(mean),
        },
  };
}

function dayView(day: DayProgress, heaviest: Exact, printing: Printing): DayView {
  const { date, first, last, hours, busiest, loads } = day;
  return {
    ...deliveredView(day, printing),
    date,
    first,
    last,
    perHour: printing.figures.show(printFixed(ratio(BigInt(loads), BigInt(Math.max(1, hours))), 1)),
    busiest,
    strip: dayStrip(day, heaviest, printing),
  };
}
