/**
 * How the figures of a season are printed: its own units, its own money, the reader's marks.
 */
import { type Figures, figuresFor } from '../../documents/figures.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { divide, type Exact, multiply, ONE, powerOfTen, whole } from '../../domain/numbers/exact.ts';
import { printFixed } from '../../domain/numbers/printing.ts';
import { fromPounds, toPounds, type WeightUnit } from '../../domain/quantities/units.ts';
import { type Money, printAmount } from '../../domain/settlement/line.ts';
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';

export interface SeasonPrinting {
  readonly show: Figures['show'];
  readonly money: Money;
  readonly ton: 'short-ton' | 'tonne';
  readonly weight: 'lb' | 'kg';
}

export const TON_PLACES = 2;
export const TEST_PLACES = 2;
/** A pound costs cents: four decimals of the currency's unit tell two prices apart. */
export const POUND_PLACES = 4;

export function seasonPrinting(
  { agreement }: Pick<FoundAgreement, 'agreement'>,
  locale: string,
): SeasonPrinting {
  return { ...readerUnits(agreement), money: moneyOf(agreement), show: figuresFor(locale).show };
}

/** Pounds in tons, as the reader writes them. */
export function printTons(pounds: Exact, { show, ton }: SeasonPrinting): string {
  return show(printFixed(fromPounds(pounds, ton), TON_PLACES));
}

/** Minor units, as the reader writes them, with no currency. */
export function printMoney(amount: bigint, { show, money }: SeasonPrinting): string {
  return show(printAmount(amount, money));
}

/** Minor units for a pound as units of the currency for a unit of weight: 12.5 cents a pound are 250 dollars a short ton. */
export function priceFor(perPound: Exact, unit: WeightUnit, { decimals }: Pick<Money, 'decimals'>): Exact {
  return divide(multiply(perPound, toPounds(ONE, unit)), whole(powerOfTen(decimals)));
}
