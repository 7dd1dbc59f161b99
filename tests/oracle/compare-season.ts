/**
 * One generated season, settled by the product and by the oracle.
 */
import { currencyDecimals } from '../../src/domain/money/currency.ts';
import { differences } from './compare.ts';
import { generateSeason } from './generate-season.ts';
import { prepareOracle } from './oracle.ts';
import { prepareProduct } from './settle-by-product.ts';

export interface SeasonComparison {
  readonly loads: number;
  readonly settled: number;
  /** One text for each load that differs. */
  readonly differences: readonly string[];
}

export function compareSeason(seed: number): SeasonComparison {
  const season = generateSeason(seed);
  const oracle = prepareOracle(season);
  const product = prepareProduct(season);
  const by = {
    decimals: currencyDecimals(season.agreement.currency) ?? -1,
    rounding: season.agreement.rounding ?? ('half-up' as const),
  };
  let settled = 0;
  const different = season.loads.flatMap((row) => {
    const expected = oracle(row);
    if (expected.status === 'settled') settled++;
    const cells = row as unknown as Readonly<Record<string, string>>;
    const found = differences(expected, product.print(product.settle(cells)), by);
    return found.length === 0 ? [] : [`seed ${seed}, ticket ${row.ticket}: ${found.join('\n')}`];
  });
  return { loads: season.loads.length, settled, differences: different };
}
