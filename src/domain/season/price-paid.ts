/**
 * What was actually paid for dry matter and for starch: the value of settled loads over what was in them. The whole value
 * over the whole quantity; a mean of single loads' prices would count a light load as much as a heavy one.
 */
import { divide, type Exact, isZero, whole } from '../numbers/exact.ts';
import { type CountedLoad, deliveredOf } from '../progress/progress.ts';
import { usedFigure } from '../samples/lab-result.ts';

export interface PricePaid {
  /** Settled loads that it is of. */
  readonly loads: number;
  /** Settled loads that are left out, since no figure says how much was in them. */
  readonly leftOut: number;
  /** In minor units. */
  readonly value: bigint;
  readonly pounds: Exact;
  /** Minor units for one pound; undefined where there is none of it. */
  readonly perPound: Exact | undefined;
}

export interface PricesPaid {
  readonly dryMatter: PricePaid;
  /** As if the whole value were for the starch. */
  readonly starch: PricePaid;
}

/** Loads that have not settled count for nothing here. */
export function pricesPaid(counted: readonly CountedLoad[]): PricesPaid {
  const settled = counted.filter(({ value }) => value !== undefined);
  const tested = settled.filter(({ result }) => result !== undefined);
  const withStarch = tested.filter(({ result, rules }) => result && usedFigure(result, 'starch', rules));
  return {
    dryMatter: pricePaid(tested, { settled: settled.length, pick: ({ dry }) => dry }),
    starch: pricePaid(withStarch, { settled: settled.length, pick: ({ starch }) => starch }),
  };
}

function pricePaid(
  loads: readonly CountedLoad[],
  of: { readonly settled: number; readonly pick: (sums: ReturnType<typeof deliveredOf>) => Exact },
): PricePaid {
  const sums = deliveredOf(loads);
  const pounds = of.pick(sums);
  return {
    loads: loads.length,
    leftOut: of.settled - loads.length,
    value: sums.value,
    pounds,
    perPound: isZero(pounds) ? undefined : divide(whole(sums.value), pounds),
  };
}
