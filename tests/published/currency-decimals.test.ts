/**
 * Decimals of currencies: the published figures, then the whole table against the ISO 4217 list one that the package
 * `currency-codes` carries. The list gives metals, bond units, the testing code and "no currency" the minor unit
 * "N.A."; the package turns that into 0 decimals, which would make them money, so they are left out here as there.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { data, publishDate } from 'currency-codes';
import { describe, expect, test } from 'vitest';
import { currencyDecimals } from '../../src/domain/money/currency.ts';
import { pay } from './priced-load.ts';

const LETTERS = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
const ALL_CODES = LETTERS.flatMap((a) => LETTERS.flatMap((b) => LETTERS.map((c) => a + b + c)));

/** In force since 2025, after the list that the package carries (memory). */
const NEWER: readonly [code: string, decimals: number][] = [['XCG', 2]];

/** Codes whose minor unit is "N.A." in the list itself. */
function codesWithoutMinorUnit(): Set<string> {
  const list = createRequire(import.meta.url).resolve('currency-codes/iso-4217-list-one.xml');
  const entries = readFileSync(list, 'utf8').split('<CcyNtry>');
  const without = entries.filter((entry) => entry.includes('<CcyMnrUnts>N.A.</CcyMnrUnts>'));
  return new Set(without.map((entry) => /<Ccy>([A-Z]{3})<\/Ccy>/.exec(entry)?.[1] ?? 'unreadable'));
}

describe('ISO 4217 decimals (read; the platform’s Intl carries the same for these)', () => {
  const rows: [code: string, decimals: number, priced: string][] = [
    ['USD', 2, '1234.57'],
    ['EUR', 2, '1234.57'],
    ['CAD', 2, '1234.57'],
    ['MXN', 2, '1234.57'],
    ['JPY', 0, '1235'],
    ['KWD', 3, '1234.568'],
    ['BHD', 3, '1234.568'],
    ['CLF', 4, '1234.5678'],
  ];
  test.each(rows)('%s has %s: 1234.56784 is %s', (currency, decimals, priced) => {
    expect(currencyDecimals(currency)).toBe(decimals);
    const intl = new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions();
    expect(intl.maximumFractionDigits).toBe(decimals);
    const agreement = { currency };
    const price = [{ term: 'flat', label: 'Price', rate: '1234.56784', per: 'load' } as const];
    expect(pay({ price, net: '2000', moisture: '40', agreement }).total).toBe(priced);
  });
});

describe(`the whole table against ISO 4217 list one of ${publishDate} (package currency-codes)`, () => {
  const without = codesWithoutMinorUnit();

  test('codes without a minor unit are known to neither', () => {
    expect([...without].sort().join(' ')).toBe('XAG XAU XBA XBB XBC XBD XDR XPD XPT XSU XTS XUA XXX');
    expect([...without].filter((code) => currencyDecimals(code) !== undefined)).toEqual([]);
  });

  test('every other code has its decimals, and there is no code besides', () => {
    const listed = data.filter(({ code }) => !without.has(code));
    const expected = new Map([...listed.map(({ code, digits }) => [code, digits] as const), ...NEWER]);
    const found = ALL_CODES.flatMap((code) => {
      const decimals = currencyDecimals(code);
      return decimals === undefined ? [] : [[code, decimals] as const];
    });
    expect(expected.size).toBeGreaterThan(160);
    expect(found).toEqual([...expected].sort(([a], [b]) => (a < b ? -1 : 1)));
  });

  test.each(['usd', 'US', 'USDX', '', 'XAU', 'XTS', 'XXX'])('%j is not a currency', (code) => {
    expect(currencyDecimals(code)).toBeUndefined();
  });
});
