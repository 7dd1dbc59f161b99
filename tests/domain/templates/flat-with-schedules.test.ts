/**
 * Flat per ton of dry matter with schedules: the words, and the amounts of loads that were worked by hand.
 */
import { describe, expect, test } from 'vitest';
import { FLAT_WITH_SCHEDULES } from '../../../src/domain/templates/flat-with-schedules.ts';
import { amountsBy, BASICS, METRIC } from './priced-by-template.ts';
import { wordsBy } from './words-by-template.ts';

test('words', () => {
  const words = wordsBy(FLAT_WITH_SCHEDULES);
  expect(words).toContain('165 USD is added for each short ton of dry matter.');
  expect(words).toContain('For starch (% of dry matter) from 53 to 59, both included, nothing is added');
  expect(words).toContain(
    'for each of the first 6 points 0.5 % of the sum so far is taken off and for each further',
  );
  expect(words).toContain('Above 42: for each point 0.5 % of the sum so far is taken off');
  expect(words).not.toContain('The corn price');
  expect(wordsBy(FLAT_WITH_SCHEDULES, METRIC)).toContain('182 EUR is added for each tonne of dry matter.');
});

describe('amounts of 40,000 lb', () => {
  const rows: [what: string, dryMatter: string, starch: string, amounts: string[], total: string][] = [
    // 24,000 lb = 12 short tons × 165 = 1,980.00; starch and water are usual.
    ['as usual', '60', '56.8', ['1980.00', '0.00', '0.00'], '1980.00'],
    // The ends of a range belong to it: 58 % of 40,000 lb = 11.6 tons × 165 = 1,914.00.
    ['at the ends of both ranges', '58', '53', ['1914.00', '0.00', '0.00'], '1914.00'],
    // 2.5 points above 59 × 0.5 % = 1.25 % of 1,980.00 = 24.75 more.
    ['with more starch', '60', '61.5', ['1980.00', '24.75', '0.00'], '2004.75'],
    // 11 points above, of which 6 count: 3 % of 1,980.00 = 59.40.
    ['with far more starch than is paid for', '60', '70', ['1980.00', '59.40', '0.00'], '2039.40'],
    // 57 %: 11.4 tons × 165 = 1,881.00. 8 points below 53: 6 × 0.5 + 2 × 1 = 5 % of it = 94.05 off. Moisture 43 is one
    // point above 42: 0.5 % of 1,786.95 = 8.93475 off.
    ['with little starch, and wet', '57', '45', ['1881.00', '-94.05', '-8.93'], '1778.02'],
  ];
  test.each(rows)('%s', (_, dryMatter, starch, amounts, total) => {
    const found = amountsBy(FLAT_WITH_SCHEDULES, { net: '40000', dryMatter, starch });
    expect(found).toEqual({ amounts, total });
  });
});

test('a currency without cents', () => {
  // 12 t of dry matter × 18,200.
  const basics = { ...METRIC, currency: 'JPY' };
  const load = { basics, net: '20000', dryMatter: '60', starch: '56' };
  expect(amountsBy(FLAT_WITH_SCHEDULES, load).total).toBe('218400');
});

test('past the end of a range the price begins to move by the tenth that figures are rounded to', () => {
  // Rounded first, 52.95 counts as 53.0 and 52.94 as 52.9: 0.1 × 0.5 % of 1,980.00 = 0.99.
  const at = (starch: string) =>
    amountsBy(FLAT_WITH_SCHEDULES, { basics: BASICS, net: '40000', dryMatter: '60', starch }).total;
  expect(at('52.95')).toBe('1980.00');
  expect(at('52.94')).toBe('1979.01');
});
