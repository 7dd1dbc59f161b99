/**
 * Amounts as whole minor units of their currency: "1986.85" in USD is 198685.
 */
import { type Exact, parseDecimal, powerOfTen } from '../numbers/exact.ts';
import type { Money } from '../settlement/line.ts';

/** The minor units of a decimal string, or undefined where it is no amount of the currency: "1.005" in USD is none. */
export function parseMinorUnits(text: string, { decimals }: Pick<Money, 'decimals'>): bigint | undefined {
  const value: Exact | undefined = parseDecimal(text);
  if (!value) return undefined;
  const scaled = value.n * powerOfTen(decimals);
  return scaled % value.d === 0n ? scaled / value.d : undefined;
}

/** `parseMinorUnits` for an amount that was recorded: throws where it is none. */
export function minorUnits(text: string, money: Pick<Money, 'decimals'>): bigint {
  const units = parseMinorUnits(text, money);
  if (units === undefined) throw new RangeError(`Not an amount: ${JSON.stringify(text.slice(0, 80))}`);
  return units;
}
