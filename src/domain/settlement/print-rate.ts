/**
 * The rate of a line as it is printed: six decimals at most, more where it takes more, so that whoever multiplies the
 * printed quantity by the printed rate gets the amount.
 */
import { powerOfTen, ratio } from '../numbers/exact.ts';
import { PRINTED_PLACES, printUnitsTrimmed } from '../numbers/printing.ts';
import { type Rounding, roundToUnits } from '../numbers/rounding.ts';
import type { Line, Money } from './line.ts';

/** Past this many decimals the printed quantity itself must be what is short, and the rate is fitted to it. */
const MOST_RATE_PLACES = 16;
/** A fitted rate is looked for up to here. A quantity that prints as zero has none: no rate gives its amount. */
const MOST_FITTED_PLACES = 40;

/**
 * The rate as text. Where more decimals of the true rate do not help (the printed quantity was cut, or the product
 * lies on a tie), the rate is amount ÷ printed quantity instead, to as many decimals as it takes.
 */
export function printRate(line: Pick<Line, 'quantity' | 'rate' | 'amount'>, money: Money): string {
  const quantity = roundToUnits(line.quantity, PRINTED_PLACES, 'half-up');
  const gives = (rate: bigint, places: number): boolean =>
    productOf({ quantity, rate, places }, money) === line.amount;

  for (let places = PRINTED_PLACES; places <= MOST_RATE_PLACES; places++) {
    const rate = roundToUnits(line.rate, places, 'half-up');
    if (gives(rate, places)) return printUnitsTrimmed(rate, places);
  }
  if (quantity !== 0n) {
    const fitted = ratio(line.amount * powerOfTen(PRINTED_PLACES), quantity * powerOfTen(money.decimals));
    for (let places = PRINTED_PLACES; places <= MOST_FITTED_PLACES; places++) {
      const rate = roundToUnits(fitted, places, 'half-up');
      if (gives(rate, places)) return printUnitsTrimmed(rate, places);
    }
  }
  return printUnitsTrimmed(roundToUnits(line.rate, PRINTED_PLACES, 'half-up'), PRINTED_PLACES);
}

function productOf(
  { quantity, rate, places }: { readonly quantity: bigint; readonly rate: bigint; readonly places: number },
  { decimals, rounding }: { readonly decimals: number; readonly rounding: Rounding },
): bigint {
  const product = { n: quantity * rate, d: powerOfTen(PRINTED_PLACES + places) };
  return roundToUnits(product, decimals, rounding);
}
