/**
 * One price term of one load: quantity, unit, exact rate, and the amount before and after rounding.
 * All figures a term needs are known by the time it comes here; prices and table rows may lack.
 */
import {
  add,
  compare,
  divide,
  type Fraction,
  greatest,
  hundred,
  least,
  multiply,
  one,
  parse,
  powerOfTen,
  type Rounding,
  rounded,
  roundedUnits,
  subtract,
  zero,
} from './fraction.ts';
import type { Figures } from './measures.ts';
import { extentOf, type Weighed } from './quantities.ts';
import type { Lack, ReferencePrice } from './reference-price.ts';
import { scheduleTotal } from './schedule-points.ts';
import type {
  BushelMethod,
  BushelTerm,
  LimitTerm,
  Measure,
  Part,
  Reference,
  Term,
  UnitPrice,
} from './season.ts';

export type PricedTerm = {
  quantity: Fraction;
  unit: string;
  rate: Fraction;
  /** The figure that is rounded: quantity times rate, or for a limit that holds, limit times quantity. */
  exact: Fraction;
  /** In minor units of the currency. */
  amount: bigint;
};

export type LoadInHand = {
  weighed: Weighed;
  figures: Figures | undefined;
  reference: (name: string) => Reference;
  priceOf: (name: string) => ReferencePrice | Lack;
  currency: string;
  decimals: number;
  rounding: Rounding;
};

function figure(hand: LoadInHand, measure: Measure): Fraction {
  const value = hand.figures?.get(measure);
  if (value === undefined) throw new Error(`no ${measure}`);
  return value;
}

function dryPounds(hand: LoadInHand): Fraction {
  return multiply(hand.weighed.asFed, divide(figure(hand, 'dry-matter'), hundred));
}

function starchOf(reference: Reference): Fraction {
  if (reference.starchPercentOfDryMatter === undefined) throw new Error('reference without starch');
  return divide(parse(reference.starchPercentOfDryMatter), hundred);
}

function shareOfDryMatter(hand: LoadInHand, part: Part | 'dry-matter', reference: Reference): Fraction {
  if (part === 'dry-matter') return one;
  if (part !== 'grain-equivalent') return divide(figure(hand, part), hundred);
  return least(one, divide(divide(figure(hand, 'starch'), hundred), starchOf(reference)));
}

function dryPoundsPerUnit(reference: Reference): Fraction {
  return divide(multiply(parse(reference.poundsPerUnit), parse(reference.dryMatterPercent)), hundred);
}

function perPound(price: Fraction, at: UnitPrice, reference: Reference): Fraction {
  const perDryPound = divide(price, dryPoundsPerUnit(reference));
  return at.per === 'starch' ? divide(perDryPound, starchOf(reference)) : perDryPound;
}

function shareOf(term: { sharePercent?: string }): Fraction {
  return divide(parse(term.sharePercent ?? '100'), hundred);
}

function tablePounds(
  method: Extract<BushelMethod, { kind: 'table' }>,
  moisture: Fraction,
): Fraction | undefined {
  const rows = method.rows.map((row) => ({ at: parse(row.moisture), pounds: parse(row.poundsPerBushel) }));
  const wetter = rows.findIndex((row) => compare(row.at, moisture) >= 0);
  const high = rows[wetter];
  if (high === undefined) return undefined;
  if (compare(high.at, moisture) === 0) return high.pounds;
  const low = rows[wetter - 1];
  if (low === undefined) return method.drier === 'first-row' ? high.pounds : undefined;
  if (method.between === 'next-wetter') return high.pounds;
  const way = divide(subtract(moisture, low.at), subtract(high.at, low.at));
  return add(low.pounds, multiply(way, subtract(high.pounds, low.pounds)));
}

function bushelsOf(hand: LoadInHand, term: BushelTerm, reference: Reference): Fraction | Lack {
  const { method } = term;
  if (method.kind === 'dry-matter') return divide(dryPounds(hand), dryPoundsPerUnit(reference));
  const moisture = figure(hand, 'moisture');
  if (method.kind === 'table') {
    const pounds = tablePounds(method, moisture);
    return pounds === undefined ? 'outside-table' : divide(hand.weighed.asFed, pounds);
  }
  const base = subtract(hundred, parse(reference.dryMatterPercent));
  const points = greatest(zero, subtract(moisture, base));
  const lost = divide(multiply(points, parse(method.percentPerPoint)), hundred);
  const kept = greatest(zero, subtract(one, lost));
  return divide(multiply(hand.weighed.asFed, kept), parse(reference.poundsPerUnit));
}

type Parts = { quantity: Fraction; unit: string; rate: Fraction };

function lineOf(hand: LoadInHand, parts: Parts): PricedTerm {
  const exact = multiply(parts.quantity, parts.rate);
  return { ...parts, exact, amount: roundedUnits(exact, hand.decimals, hand.rounding) };
}

function limitLine(hand: LoadInHand, term: LimitTerm, before: bigint): PricedTerm {
  const quantity = extentOf(hand.weighed, term);
  const sum: Fraction = { n: before, d: powerOfTen(hand.decimals) };
  const floor = term.floor === undefined ? undefined : multiply(parse(term.floor), quantity);
  const ceiling = term.ceiling === undefined ? undefined : multiply(parse(term.ceiling), quantity);
  let held: Fraction | undefined;
  if (floor !== undefined && compare(sum, floor) < 0) held = floor;
  else if (ceiling !== undefined && compare(sum, ceiling) > 0) held = ceiling;
  if (held === undefined) return { quantity, unit: term.per, rate: zero, exact: zero, amount: 0n };
  const amount = roundedUnits(held, hand.decimals, hand.rounding) - before;
  const money: Fraction = { n: amount, d: powerOfTen(hand.decimals) };
  const rate = quantity.n === 0n ? zero : divide(money, quantity);
  return { quantity, unit: term.per, rate, exact: held, amount };
}

function referenceLine(
  hand: LoadInHand,
  term: Extract<Term, { at: { reference: string } }>,
): PricedTerm | Lack {
  const reference = hand.reference(term.at.reference);
  const priced = hand.priceOf(term.at.reference);
  if (typeof priced === 'string') return priced;
  if (term.term === 'equivalent-bushels') {
    const bushels = bushelsOf(hand, term, reference);
    if (typeof bushels === 'string') return bushels;
    const places = term.bushelDecimals;
    const quantity = places === undefined ? bushels : rounded(bushels, Number(places), hand.rounding);
    return lineOf(hand, { quantity, unit: 'bushel', rate: multiply(priced.price, shareOf(term)) });
  }
  let share = one;
  if (term.term === 'constituent') share = shareOfDryMatter(hand, term.of, reference);
  else for (const part of term.after) share = subtract(share, shareOfDryMatter(hand, part, reference));
  if (share.n < 0n) throw new Error(`negative remainder on load "${hand.weighed.load.ticket}"`);
  const rate = multiply(perPound(priced.price, term.at, reference), shareOf(term));
  return lineOf(hand, { quantity: multiply(dryPounds(hand), share), unit: 'lb', rate });
}

/** Prices one term; `before` is the sum of the rounded lines before it, in minor units. */
export function priceTerm(hand: LoadInHand, term: Term, before: bigint): PricedTerm | Lack {
  switch (term.term) {
    case 'constituent':
    case 'remainder':
    case 'equivalent-bushels':
      return referenceLine(hand, term);
    case 'flat':
      return lineOf(hand, { quantity: extentOf(hand.weighed, term), unit: term.per, rate: parse(term.rate) });
    case 'schedule': {
      const total = scheduleTotal(term, figure(hand, term.on));
      if (term.unit === 'money')
        return lineOf(hand, { quantity: extentOf(hand.weighed, term), unit: term.per, rate: total });
      const quantity: Fraction = { n: before, d: powerOfTen(hand.decimals) };
      return lineOf(hand, { quantity, unit: hand.currency, rate: divide(total, hundred) });
    }
    case 'limit':
      return limitLine(hand, term, before);
  }
}
