/**
 * What may be agreed on for the season as a whole: what a delivery short of the agreed volume costs, what tons beyond it
 * bring, and whether all loads are priced again by the season's own averages. Beside the shapes, what they cannot hold.
 */
import { z } from 'zod';
import { compare, decimal, HUNDRED } from '../numbers/exact.ts';
import type { AgreementProblem, JsonPath } from './problem.ts';
import { asDecimal, asGroup, type RawGroup } from './raw.ts';
import { aboveZero, date, notNegative, share } from './scalar-shapes.ts';

/** What tons are counted from once a delivery lies outside the range: the end of the range, or the agreed amount. */
const countedFrom = z.enum(['range', 'amount']);

export const shortfallShape = z.strictObject({
  owedBy: z.enum(['seller', 'buyer']),
  from: countedFrom,
  /** Money for each ton of the volume's own unit and weight. */
  rate: aboveZero.optional(),
  /** Of the season's average price of such a ton. */
  percentOfAverage: share.optional(),
});

export const surplusShape = z.strictObject({
  from: countedFrom,
  /** Taken off the seller's money for each ton over. */
  rate: aboveZero.optional(),
  percentOfAverage: share.optional(),
  /** What each ton over is paid in the place of the season's average price. */
  price: notNegative.optional(),
});

export const trueUpShape = z.strictObject({
  /** The mean of all quotes of these days prices every load that follows the market. */
  prices: z.strictObject({ from: date, to: date }).optional(),
  /** The season's average test prices every load. */
  tests: z.literal(true, { error: 'true, without quotes' }).optional(),
});

const SHORTFALL_WAYS = ['rate', 'percentOfAverage'] as const;
const SURPLUS_WAYS = ['rate', 'percentOfAverage', 'price'] as const;

/** Problems of `shortfall` and `surplus` in a `volume`: each needs one way of counting money, and something to count. */
export function volumeRules(volume: RawGroup | undefined, path: JsonPath): AgreementProblem[] {
  if (!volume) return [];
  const shortfall = asGroup(volume['shortfall']);
  const surplus = asGroup(volume['surplus']);
  return [
    ...(shortfall ? oneWay(shortfall, SHORTFALL_WAYS, [...path, 'shortfall']) : []),
    ...(surplus ? oneWay(surplus, SURPLUS_WAYS, [...path, 'surplus']) : []),
    ...(shortfall ? canFallShort(volume, [...path, 'shortfall']) : []),
  ];
}

function oneWay(rule: RawGroup, ways: readonly string[], path: JsonPath): AgreementProblem[] {
  const named = ways.filter((way) => rule[way] !== undefined);
  if (named.length === 0) {
    const [first = '', ...others] = ways;
    const instead = others.map((way) => `"${way}"`).join(' or ');
    return [
      {
        path: [...path, first],
        message: `is missing: money for each ton, like "4.25"; or ${instead} in its place`,
      },
    ];
  }
  return named.slice(1).map((way) => ({
    path: [...path, way],
    message: `is a second figure for each ton beside "${named[0]}"; keep one of them`,
  }));
}

/** With a tolerance of everything, no delivery is too small. */
function canFallShort(volume: RawGroup, path: JsonPath): AgreementProblem[] {
  const tolerance = asDecimal(volume['tolerancePercent']);
  if (tolerance === undefined || compare(decimal(tolerance), HUNDRED) < 0) return [];
  return [
    {
      path,
      message: `can never come about with a tolerance of ${tolerance} %; remove it or lower the tolerance`,
    },
  ];
}

/** Problems of a `trueUp`: its days must be in order. That it holds something is checked with the other groups. */
export function trueUpRules(trueUp: RawGroup | undefined, path: JsonPath): AgreementProblem[] {
  const prices = asGroup(trueUp?.['prices']);
  const from = date.safeParse(prices?.from).data;
  const to = date.safeParse(prices?.to).data;
  if (from === undefined || to === undefined || from <= to) return [];
  return [
    {
      path: [...path, 'prices', 'from'],
      message: `must not be after "to"; found ${from} after ${to}`,
    },
  ];
}
