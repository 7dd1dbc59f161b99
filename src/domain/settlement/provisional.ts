/**
 * What a load that waits is thought to be worth, for advances and for statements: an estimate, and called one. It settles
 * nothing, so it may use what a settlement must not: a quote of a day that is still open.
 */
import type { Conditions } from '../agreement/conditions.ts';
import type { Agreement } from '../agreement/document.ts';
import type { LocalDate } from '../dates/local-date.ts';
import { decimal, type Exact, MAX_DECIMAL_LENGTH, ONE } from '../numbers/exact.ts';
import { printDecimal, printWritten } from '../numbers/printing.ts';
import type { PriceSeries } from '../prices/price-series.ts';
import { fromPounds } from '../quantities/units.ts';
import { amountOf, type Money, printAmount } from './line.ts';
import type { Waiting } from './outcome.ts';
import { type Evidence, prepareSettlement } from './settle-load.ts';

export type AdvanceTerms = NonNullable<Conditions['advance']>;

export interface Estimate {
  /** Minor units. */
  readonly amount: bigint;
  /** "47120 lb = 23.56 short-ton × 48.00", "by its result and the newest quote". */
  readonly how: string;
  readonly quantity: Exact;
  readonly unit: string;
}

/**
 * The value of a waiting load by its own result and the newest quote of each series by its delivery day; undefined where
 * its result or a quote is missing, or it waits for a decision.
 */
export function valueByNewestQuote(
  { load }: Waiting,
  { agreement, evidence }: { readonly agreement: Agreement; readonly evidence: Evidence },
): bigint | undefined {
  const priced = pricedByNewest(agreement, evidence.prices, load.deliveredOn);
  if (!priced) return undefined;
  const outcome = prepareSettlement(priced, evidence)(load);
  return outcome.status === 'settled' ? outcome.total : undefined;
}

/** The agreement with each reference fixed at the newest quote by a day; undefined where a series has none. */
function pricedByNewest(
  agreement: Agreement,
  prices: ReadonlyMap<string, PriceSeries>,
  day: LocalDate,
): Agreement | undefined {
  const references: Record<string, Agreement['references'][string]> = {};
  for (const [name, reference] of Object.entries(agreement.references)) {
    if (reference.rule.kind === 'fixed') {
      references[name] = reference;
      continue;
    }
    const quote = (prices.get(reference.series ?? '') ?? []).findLast(({ date }) => date <= day);
    if (!quote) return undefined;
    const price = printDecimal(quote.price, MAX_DECIMAL_LENGTH);
    references[name] = { ...reference, rule: { kind: 'fixed', price } };
  }
  return { ...agreement, references };
}

/** The agreed rate on a load's weight as delivered: 48.00 a short ton on 47,120 lb is 1,130.88. */
export function valueByRate({ load }: Waiting, { rate, per }: AdvanceTerms, money: Money): Estimate {
  const quantity = per === 'load' ? ONE : fromPounds(load.netPounds, per);
  const amount = amountOf(quantity, decimal(rate), money);
  const told = per === 'load' ? '1 load' : `${printDecimal(quantity)} ${per} as delivered`;
  return { amount, how: `${told} × ${printWritten(rate)}`, quantity, unit: per };
}

/** What an advance on a load rests on: its own value where the agreement says so and it can be had, else the agreed rate. */
export function estimate(
  waiting: Waiting,
  terms: AdvanceTerms,
  ground: { readonly agreement: Agreement; readonly evidence: Evidence; readonly money: Money },
): Estimate {
  const value = terms.byNewestQuote ? valueByNewestQuote(waiting, ground) : undefined;
  if (value === undefined || value <= 0n) return valueByRate(waiting, terms, ground.money);
  const told = printAmount(value, ground.money);
  return { amount: value, how: `${told} by its result and the newest quote`, quantity: ONE, unit: 'load' };
}
