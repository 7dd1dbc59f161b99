/**
 * The product against the oracle: generated agreements over all terms, rules, units, currencies and both roundings.
 * Not one figure may differ.
 */
import { describe, expect, test } from 'vitest';
import { currencyDecimals } from '../../src/domain/money/currency.ts';
import { differences } from './compare.ts';
import { generateSeason } from './generate-season.ts';
import { prepareOracle } from './oracle.ts';
import { prepareProduct } from './settle-by-product.ts';

const LEAST_LOADS = 20_000;

describe('settlement against the exact-fraction oracle', () => {
  test(`agrees on every figure of at least ${LEAST_LOADS} generated loads`, () => {
    let loads = 0;
    let settled = 0;
    for (let seed = 1; loads < LEAST_LOADS; seed++) {
      const season = generateSeason(seed);
      const oracle = prepareOracle(season);
      const product = prepareProduct(season);
      const by = {
        decimals: currencyDecimals(season.agreement.currency) ?? -1,
        rounding: season.agreement.rounding ?? ('half-up' as const),
      };
      for (const row of season.loads) {
        const expected = oracle(row);
        const outcome = product.settle(row as unknown as Readonly<Record<string, string>>);
        const found = differences(expected, product.print(outcome), by);
        expect(found, `seed ${seed}, ticket ${row.ticket}`).toEqual([]);
        loads++;
        if (expected.status === 'settled') settled++;
      }
    }
    expect(loads).toBeGreaterThanOrEqual(LEAST_LOADS);
    expect(settled).toBeGreaterThan(LEAST_LOADS / 4);
  });
});
