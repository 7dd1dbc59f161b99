/**
 * `npm run bench -- --exact`: a million generated loads against the exact-fraction oracle, figure by figure.
 */
import { currencyDecimals } from '../../src/domain/money/currency.ts';
import { differences } from '../oracle/compare.ts';
import { generateSeason } from '../oracle/generate-season.ts';
import { prepareOracle } from '../oracle/oracle.ts';
import { prepareProduct } from '../oracle/settle-by-product.ts';

/** Returns how many loads differ. Seeds begin past those of the test suite. */
export function compareExactly(loads: number, say: (line: string) => void): number {
  const started = performance.now();
  let compared = 0;
  let different = 0;
  let settled = 0;
  for (let seed = 1_000_000; compared < loads; seed++) {
    const season = generateSeason(seed);
    const oracle = prepareOracle(season);
    const product = prepareProduct(season);
    const by = {
      decimals: currencyDecimals(season.agreement.currency) ?? -1,
      rounding: season.agreement.rounding ?? ('half-up' as const),
    };
    for (const row of season.loads) {
      const expected = oracle(row);
      const cells = row as unknown as Readonly<Record<string, string>>;
      const found = differences(expected, product.print(product.settle(cells)), by);
      if (found.length > 0) {
        different++;
        say(`seed ${seed}, ticket ${row.ticket}: ${found.join('\n')}`);
      }
      compared++;
      if (expected.status === 'settled') settled++;
    }
  }
  const seconds = ((performance.now() - started) / 1000).toFixed(0);
  say(
    `${compared} generated loads (${settled} settled) against the oracle: ${different} differ; ${seconds} s`,
  );
  return different;
}
