/**
 * Whether what went into a silo came out again: dry matter delivered, fed and left, and the share that is gone. Shrink is
 * said only for a day on which what was left was measured or weighed; it is of that day, and what was put in or fed later
 * does not belong to it.
 */
import type { LocalDate } from '../dates/local-date.ts';
import {
  add,
  compare,
  decimal,
  divide,
  type Exact,
  HUNDRED,
  isNegative,
  isZero,
  multiply,
  percent,
  subtract,
  ZERO,
} from '../numbers/exact.ts';
import { printFixed } from '../numbers/printing.ts';
import { toPounds, type WeightUnit } from '../quantities/units.ts';

/** A load that was put in. */
export interface StoredLoad {
  readonly ticket: string;
  readonly deliveredOn: LocalDate;
  readonly netPounds: Exact;
  /** Percent of the net weight; undefined where no test tells it. */
  readonly dryMatter: Exact | undefined;
  readonly isSettled: boolean;
}

/** Feed taken out on the days of a period, both among them. */
export interface FedFeed {
  readonly from: LocalDate;
  readonly to: LocalDate;
  /** As it was fed. */
  readonly weight: Exact;
  readonly unit: WeightUnit;
  /** Percent. */
  readonly dryMatter: Exact;
}

/** Feet: cubic feet, and pounds in each. Metres: cubic metres, and kilograms in each. */
export const MEASURES = ['feet', 'metres'] as const;
export type Measures = (typeof MEASURES)[number];

/** What was left when the feeding of a day was done. */
export type LeftFeed = {
  readonly on: LocalDate;
  /** Percent. */
  readonly dryMatter: Exact;
} & (
  | { readonly how: 'weighed'; readonly weight: Exact; readonly unit: WeightUnit }
  /** The density is of the feed as it lies, water included. */
  | { readonly how: 'measured'; readonly volume: Exact; readonly density: Exact; readonly in: Measures }
);

export interface SiloContents {
  readonly loads: readonly StoredLoad[];
  readonly fed: readonly FedFeed[];
  readonly left: readonly LeftFeed[];
}

/** Why no shrink is said. */
export type Lack =
  | { readonly why: 'nothing-delivered' }
  | { readonly why: 'not-settled'; readonly tickets: readonly string[] }
  | { readonly why: 'no-dry-matter'; readonly tickets: readonly string[] }
  | { readonly why: 'nothing-left-measured' }
  /** A period of feeding runs from before the measurement to after it. */
  | { readonly why: 'period-across'; readonly from: LocalDate; readonly to: LocalDate };

/** Dry matter in pounds, exactly. */
export interface SiloAccount {
  /** The day to whose end it is; undefined while nothing is measured, and it is to this day then. */
  readonly until: LocalDate | undefined;
  readonly delivered: Exact;
  readonly fed: Exact;
  readonly left: Exact | undefined;
  /** delivered − fed − left, or − fed alone while nothing left is measured. */
  readonly notAccounted: Exact;
  /** notAccounted ÷ delivered; below 0 where more came out than went in. Undefined where something lacks. */
  readonly shrink: Exact | undefined;
  readonly lacks: readonly Lack[];
  /** Loads put in, and entries of feed, after the day of the measurement: in none of these figures. */
  readonly later: { readonly loads: number; readonly fed: number };
}

/**
 * The account of a silo to its newest measurement. 100,000 lb at 60 % delivered are 60,000 lb of dry matter; 80,000 lb at
 * 59 % fed are 47,200, and 6,000 lb at 58 % left are 3,480: 9,320 are gone, and the shrink is 9,320 ÷ 60,000 = 15.5 %.
 */
export function siloAccount({ loads, fed, left }: SiloContents): SiloAccount {
  const newest = left.reduce<LeftFeed | undefined>(
    (latest, one) => (latest === undefined || one.on >= latest.on ? one : latest),
    undefined,
  );
  const until = newest?.on;
  const isLater = (day: LocalDate) => until !== undefined && day > until;
  const put = loads.filter(({ deliveredOn }) => !isLater(deliveredOn));
  const taken = fed.filter(({ from }) => !isLater(from));
  const tested = put.flatMap(({ isSettled, dryMatter, netPounds }) =>
    isSettled && dryMatter ? [multiply(netPounds, percent(dryMatter))] : [],
  );
  const delivered = tested.reduce(add, ZERO);
  const eaten = taken.map((one) => dryPounds(one)).reduce(add, ZERO);
  const rest = newest && leftPounds(newest);
  const notAccounted = subtract(subtract(delivered, eaten), rest ?? ZERO);
  const lacks = lacksOf({ put, taken, newest });
  return {
    until,
    delivered,
    fed: eaten,
    left: rest,
    notAccounted,
    shrink: lacks.length > 0 || isZero(delivered) ? undefined : divide(notAccounted, delivered),
    lacks,
    later: { loads: loads.length - put.length, fed: fed.length - taken.length },
  };
}

interface Counted {
  readonly put: readonly StoredLoad[];
  readonly taken: readonly FedFeed[];
  readonly newest: LeftFeed | undefined;
}

function lacksOf({ put, taken, newest }: Counted): readonly Lack[] {
  const lacks: Lack[] = [];
  const tickets = (of: readonly StoredLoad[]) => of.map(({ ticket }) => ticket);
  const waiting = put.filter(({ isSettled }) => !isSettled);
  const untested = put.filter(({ isSettled, dryMatter }) => isSettled && dryMatter === undefined);
  if (put.length === 0) lacks.push({ why: 'nothing-delivered' });
  if (waiting.length > 0) lacks.push({ why: 'not-settled', tickets: tickets(waiting) });
  if (untested.length > 0) lacks.push({ why: 'no-dry-matter', tickets: tickets(untested) });
  if (newest === undefined) lacks.push({ why: 'nothing-left-measured' });
  for (const { from, to } of taken) {
    if (newest && to > newest.on) lacks.push({ why: 'period-across', from, to });
  }
  return lacks;
}

function dryPounds({ weight, unit, dryMatter }: Pick<FedFeed, 'weight' | 'unit' | 'dryMatter'>): Exact {
  return multiply(toPounds(weight, unit), percent(dryMatter));
}

/** Dry matter left, in pounds: 500 cubic feet at 45 lb and 60 % are 13,500. */
export function leftPounds(left: LeftFeed): Exact {
  if (left.how === 'weighed') return dryPounds(left);
  const weight = multiply(left.volume, left.density);
  return dryPounds({ weight, unit: left.in === 'feet' ? 'lb' : 'kg', dryMatter: left.dryMatter });
}

/** A shrink in percent to one decimal: 9,320 ÷ 60,000 is "15.5". */
export function printShrink(shrink: Exact): string {
  return printFixed(multiply(shrink, HUNDRED), SHRINK_PLACES);
}
const SHRINK_PLACES = 1;

export type ShrinkStanding = 'more-out-than-in' | 'below' | 'within' | 'above';

/** How a shrink stands to a published range; one below 0 is no shrink at all, whatever it prints as. */
export function shrinkStanding(
  shrink: Exact,
  { low, high }: { readonly low: string; readonly high: string },
): ShrinkStanding {
  if (isNegative(shrink)) return 'more-out-than-in';
  if (compare(shrink, percent(decimal(low))) < 0) return 'below';
  return compare(shrink, percent(decimal(high))) > 0 ? 'above' : 'within';
}
