/**
 * The product against the oracle: generated agreements over all terms, rules, units, currencies and both roundings.
 * Not one figure may differ.
 */
import { describe, expect, test } from 'vitest';
import { compareSeason } from './compare-season.ts';

const LEAST_LOADS = 20_000;

describe('settlement against the exact-fraction oracle', () => {
  test(`agrees on every figure of at least ${LEAST_LOADS} generated loads`, () => {
    let loads = 0;
    let settled = 0;
    for (let seed = 1; loads < LEAST_LOADS; seed++) {
      const compared = compareSeason(seed);
      expect(compared.differences).toEqual([]);
      loads += compared.loads;
      settled += compared.settled;
    }
    expect(settled).toBeGreaterThan(LEAST_LOADS / 4);
  });
});
