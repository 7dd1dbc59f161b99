/**
 * What a delivery short of the agreed volume, or beyond it, comes to by the agreement's own rule. Tons are of the volume's
 * unit and weight; an amount is quantity × rate, rounded once. The season's average stays a quotient until then.
 */

import type { Conditions } from '../agreement/conditions.ts';
import { committedRange } from '../deliveries/committed-range.ts';
import {
  compare,
  decimal,
  divide,
  type Exact,
  isZero,
  multiply,
  negate,
  percent,
  powerOfTen,
  subtract,
  ZERO,
} from '../numbers/exact.ts';
import { printWritten } from '../numbers/printing.ts';
import { fromPounds } from '../quantities/units.ts';
import { tell, tellEnd } from '../settlement/derivation.ts';
import { amountOf, type Money, printAmount } from '../settlement/line.ts';

export type VolumeTerms = NonNullable<Conditions['volume']>;

export interface VolumeRange {
  readonly amount: Exact;
  readonly least: Exact;
  readonly most: Exact;
}

/** 1,500 within 10 % is 1,350 to 1,650, both ends in it. In the volume's own unit. */
export function volumeRange({ amount, tolerancePercent }: VolumeTerms): VolumeRange {
  const agreed = decimal(amount);
  return { amount: agreed, ...committedRange(agreed, decimal(tolerancePercent ?? '0')) };
}

/** What a season brought, in pounds of the volume's own weight: as fed, or dry matter. */
export interface SeasonVolume {
  /** All that counts as delivered. */
  readonly pounds: Exact;
  /** Loads that are not counted, since dry matter is asked for and theirs is not known. */
  readonly uncounted: number;
  /** Of the settled loads whose weight is known: pounds, and what they came to in minor units. */
  readonly settled: { readonly pounds: Exact; readonly value: bigint };
}

/** What a rule about the volume comes to. */
export interface VolumeOutcome {
  /** In the volume's own unit. */
  readonly delivered: Exact;
  /** The end of the range that was passed, or would have to be. */
  readonly bound: Exact;
  /** Tons that count; nothing where the delivery keeps to the range. */
  readonly quantity: Exact;
  /** Money for one; above zero is owed by the buyer. */
  readonly rate: Exact;
  /** In minor units; above zero is owed by the buyer. */
  readonly owed: bigint;
  /** The derivation in one line of figures. */
  readonly how: string;
}

/** An outcome, or why there is none yet: no load has settled, so that no average price is known. */
export type WorkedVolume = VolumeOutcome | 'no-average';

/**
 * 1,300 short tons of 1,500 within 10 %, at 12.00 for each short of the range: 50 × 12.00 = 600.00. Counted from the amount
 * it is 200 × 12.00 = 2,400.00, and from 1,350 on nothing either way.
 */
export function shortfallOf(terms: VolumeTerms, season: SeasonVolume, money: Money): WorkedVolume {
  const rule = terms.shortfall;
  if (!rule) throw new Error('No rule for a shortfall is agreed on');
  const { amount, least } = volumeRange(terms);
  const delivered = fromPounds(season.pounds, terms.unit);
  const isShort = compare(delivered, least) < 0;
  const [from, name] = rule.from === 'amount' ? [amount, 'agreed'] : [least, 'range from'];
  const quantity = isShort ? subtract(from, delivered) : ZERO;
  const priced = rateOf(rule, { terms, season, money, isTaken: rule.owedBy === 'seller' });
  if (priced === 'no-average') return isShort ? priced : nothing({ delivered, bound: least });
  const counted = `${name} ${tell(from)} − delivered ${tell(delivered)} = ${tell(quantity)} ${terms.unit}`;
  return worked({ delivered, bound: least, quantity, ...priced, money, counted });
}

/**
 * 1,700 short tons of 1,500 within 10 %, 3.00 taken off for each beyond the range: 50 × −3.00 = −150.00. At a price of 58.00
 * where the season's average is 62.50, 50 × (58.00 − 62.50) = −225.00.
 */
export function surplusOf(terms: VolumeTerms, season: SeasonVolume, money: Money): WorkedVolume {
  const rule = terms.surplus;
  if (!rule) throw new Error('No rule for a surplus is agreed on');
  const { amount, most } = volumeRange(terms);
  const delivered = fromPounds(season.pounds, terms.unit);
  const isOver = compare(delivered, most) > 0;
  const [from, name] = rule.from === 'amount' ? [amount, 'agreed'] : [most, 'range to'];
  const quantity = isOver ? subtract(delivered, from) : ZERO;
  const priced =
    rule.price === undefined
      ? rateOf(rule, { terms, season, money, isTaken: true })
      : priceOf(rule.price, { terms, season, money });
  if (priced === 'no-average') return isOver ? priced : nothing({ delivered, bound: most });
  const counted = `delivered ${tell(delivered)} − ${name} ${tell(from)} = ${tell(quantity)} ${terms.unit}`;
  return worked({ delivered, bound: most, quantity, ...priced, money, counted });
}

interface AverageGround {
  readonly terms: VolumeTerms;
  readonly season: SeasonVolume;
  readonly money: Money;
}

interface Rate {
  readonly rate: Exact;
  readonly told: string;
}

/** A rate that is agreed on, or a share of the season's average; below zero where the seller owes it. */
function rateOf(
  rule: { readonly rate?: string | undefined; readonly percentOfAverage?: string | undefined },
  { isTaken, ...ground }: AverageGround & { readonly isTaken: boolean },
): Rate | 'no-average' {
  const figure = decimal(rule.rate ?? rule.percentOfAverage ?? '');
  const signed = isTaken ? negate(figure) : figure;
  if (rule.rate !== undefined) return { rate: signed, told: tell(signed) };
  const average = averageOf(ground);
  if (average === 'no-average') return average;
  return { rate: multiply(average.rate, percent(signed)), told: `${average.told} × ${tell(signed)} %` };
}

function priceOf(price: string, ground: AverageGround): Rate | 'no-average' {
  const average = averageOf(ground);
  if (average === 'no-average') return average;
  return {
    rate: subtract(decimal(price), average.rate),
    told: `(${printWritten(price)} − ${average.told})`,
  };
}

/** What a ton came to: the settled money by the settled tons, not rounded. */
function averageOf({ terms, season, money }: AverageGround): Rate | 'no-average' {
  const { pounds, value } = season.settled;
  if (isZero(pounds)) return 'no-average';
  const tons = fromPounds(pounds, terms.unit);
  const units: Exact = { n: value, d: powerOfTen(money.decimals) };
  return {
    rate: divide(units, tons),
    told: `average of the season (${printAmount(value, money)} ÷ ${tell(tons)} ${terms.unit})`,
  };
}

function nothing({ delivered, bound }: Pick<VolumeOutcome, 'delivered' | 'bound'>): VolumeOutcome {
  return { delivered, bound, quantity: ZERO, rate: ZERO, owed: 0n, how: '' };
}

function worked(
  of: Omit<VolumeOutcome, 'owed' | 'how'> & {
    readonly money: Money;
    readonly counted: string;
    readonly told: string;
  },
): VolumeOutcome {
  const { delivered, bound, quantity, rate, money, counted, told } = of;
  if (isZero(quantity)) return nothing({ delivered, bound });
  const owed = amountOf(quantity, rate, money);
  const product = multiply(quantity, rate);
  return {
    ...{ delivered, bound, quantity, rate, owed },
    how: `${counted}; × ${told} ${tellEnd(product, owed, money)}`,
  };
}
