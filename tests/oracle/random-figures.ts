/**
 * Decimal strings by chance: plausible amounts of money, and percentages in hundredths.
 * Money is thought of in dollars and scaled to the currency, so that one generator serves all of them.
 */
import type { Chance } from './random.ts';
import { currencyDecimals, type Per } from './season.ts';

const perDollar: ReadonlyMap<string, number> = new Map([
  ['USD', 1],
  ['EUR', 1],
  ['CAD', 1],
  ['MXN', 20],
  ['JPY', 150],
  ['CLP', 900],
  ['KWD', 0.3],
  ['BHD', 0.4],
]);

/** What one short ton's worth of a rate is on each unit. */
export const perShortTon: Record<Per, number> = {
  'short-ton': 1,
  tonne: 1.1,
  cwt: 0.05,
  lb: 0.0005,
  kg: 0.0011,
  load: 20,
  mile: 0.8,
  km: 0.5,
};

export function decimalText(units: number, decimals: number): string {
  const digits = String(Math.abs(units)).padStart(decimals + 1, '0');
  const point = digits.length - decimals;
  const text = decimals === 0 ? digits : `${digits.slice(0, point)}.${digits.slice(point)}`;
  return units < 0 ? `-${text}` : text;
}

/** A whole number of hundredths, usually without trailing zeros. */
export function hundredthsText(chance: Chance, units: number): string {
  const text = decimalText(units, 2);
  return chance.happens(0.7) ? text.replace(/\.?0+$/, '') : text;
}

export type Money = { decimals: number; text: (dollars: number, extraDecimals: number) => string };

export function moneyIn(currency: string): Money {
  const decimals = currencyDecimals.get(currency) ?? 2;
  const scale = perDollar.get(currency) ?? 1;
  return {
    decimals,
    text: (dollars, extraDecimals) => {
      const amount = dollars * scale;
      // Two significant figures at least, so that a rate per pound is not zero.
      const needed = amount === 0 ? 0 : Math.ceil(1 - Math.log10(Math.abs(amount)));
      const places = Math.max(decimals + extraDecimals, needed, 0);
      return decimalText(Math.round(amount * 10 ** places), places);
    },
  };
}

/**
 * A rate whose product with an ordinary weight often ends exactly half way between two minor units:
 * odd multiples of an eighth of a unit per ton, and half a minor unit per load.
 */
export function rateText(chance: Chance, money: Money, dollars: number, per: Per): string {
  const text = money.text(dollars * perShortTon[per], chance.integer(0, 2));
  if (chance.happens(0.25)) return text;
  const sign = dollars < 0 ? -1 : 1;
  const places = money.decimals + 1;
  const size = Math.abs(Number(money.text(dollars * perShortTon[per], 2))) * 10 ** places;
  if (per === 'load') return decimalText(sign * (Math.floor(size / 10) * 10 + 5), places);
  if (per === 'lb' || per === 'kg') return decimalText(sign * chance.integer(1, 40) * 125, places + 3);
  return decimalText(sign * Math.max(1, Math.round(size / 125)) * 125, places);
}
