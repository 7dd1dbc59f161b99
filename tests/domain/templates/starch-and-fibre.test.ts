/**
 * Starch and fibre apart: the words, and the amounts of loads that were worked by hand.
 */
import { describe, expect, test } from 'vitest';
import { STARCH_AND_FIBRE, STARCH_AND_FORAGE } from '../../../src/domain/templates/starch-and-fibre.ts';
import { amountsBy, METRIC, priceByTemplate } from './priced-by-template.ts';
import { wordsBy } from './words-by-template.ts';

// 40,000 lb at 60 % are 24,000 lb of dry matter.
const LOAD = { net: '40000', dryMatter: '60', starch: '56.8' };

describe('both by the corn price', () => {
  test('words', () => {
    const words = wordsBy(STARCH_AND_FIBRE);
    expect(words).toContain(
      'corn grain by its starch (the grain-equivalent), at 100 % of what the corn price',
    );
    expect(words).toContain(
      'that are left after corn grain by its starch (the grain-equivalent), at 60 % of',
    );
    expect(words).toContain('divided by the 71 % of starch in the dry matter of corn grain');
    expect(words).toContain('One bushel is 56 lb of grain or forage that holds 84.5 % dry matter');
    expect(words).toContain('the latest earlier one, at most 7 days old');
  });

  test('a price that comes to ten cents a pound of dry matter', () => {
    // 56 lb × 84.5 % = 47.32 lb a bushel; 4.732 ÷ 47.32 = 0.10.
    // Grain: 56.8 ÷ 71 = 0.8 of 24,000 lb = 19,200 lb × 0.10 = 1,920.00.
    // Fibre: the other 4,800 lb × 0.10 × 60 % = 288.00. Together 2,208.00.
    const { lines, total } = priceByTemplate(STARCH_AND_FIBRE, { ...LOAD, corn: '4.732' });
    expect(lines).toMatchObject([
      { quantity: '19200', unit: 'lb', rate: '0.1', amount: '1920.00' },
      { quantity: '4800', unit: 'lb', rate: '0.06', amount: '288.00' },
    ]);
    expect(total).toBe('2208.00');
  });

  test('a price that does not come out even', () => {
    // Grain: 19,200 × 4.20 ÷ 47.32 = 80,640 ÷ 47.32 = 1,704.142…
    // Fibre: 4,800 × 0.6 × 4.20 ÷ 47.32 = 12,096 ÷ 47.32 = 255.621… Together 1,959.76.
    const found = amountsBy(STARCH_AND_FIBRE, { ...LOAD, corn: '4.20' });
    expect(found).toEqual({ amounts: ['1704.14', '255.62'], total: '1959.76' });
  });

  test('by the tonne', () => {
    // 172 ÷ 0.86 = 200 a tonne of dry matter. 20,000 kg at 60 % are 12 t of it: 9.6 t of grain × 200 = 1,920.00, and
    // 2.4 t of fibre × 200 × 60 % = 288.00.
    const found = amountsBy(STARCH_AND_FIBRE, { ...LOAD, basics: METRIC, net: '20000', corn: '172' });
    expect(found).toEqual({ amounts: ['1920.00', '288.00'], total: '2208.00' });
    expect(wordsBy(STARCH_AND_FIBRE, METRIC)).toContain('The corn price is in EUR per tonne');
  });

  test('starch in shelled corn above that of the reference counts as all grain', () => {
    // 74 ÷ 71 is more than all: 24,000 lb × 0.10 = 2,400.00, and no fibre is left.
    const found = amountsBy(STARCH_AND_FIBRE, { ...LOAD, starch: '74', corn: '4.732' });
    expect(found).toEqual({ amounts: ['2400.00', '0.00'], total: '2400.00' });
  });
});

describe('the rest by the hay price', () => {
  test('words', () => {
    const words = wordsBy(STARCH_AND_FORAGE);
    expect(words).toContain('pounds of starch, at 85 % of what the corn price comes to per pound of starch.');
    expect(words).toContain(
      'left after starch, at 100 % of what the hay price comes to per pound of dry matter.',
    );
    expect(words).toContain('One short ton is 2000 lb of grain or forage that holds 90 % dry matter.');
  });

  test('corn at ten cents and hay at five cents a pound of dry matter', () => {
    // Corn as above; a pound of starch is 0.10 ÷ 0.71. Hay: 90 ÷ (2,000 × 90 %) = 0.05.
    // Starch: 56.8 % of 24,000 = 13,632 lb × 0.10 ÷ 0.71 × 85 % = 1,632.00.
    // The rest: 24,000 − 13,632 = 10,368 lb × 0.05 = 518.40. Together 2,150.40.
    const { lines, total } = priceByTemplate(STARCH_AND_FORAGE, { ...LOAD, corn: '4.732', hay: '90' });
    expect(lines).toMatchObject([
      { quantity: '13632', amount: '1632.00' },
      { quantity: '10368', rate: '0.05', amount: '518.40' },
    ]);
    expect(total).toBe('2150.40');
  });

  test('by the tonne', () => {
    // Corn 172 ÷ 0.86 = 200 and hay 99 ÷ 0.90 = 110 a tonne of dry matter. Of 12 t, 56.8 % are 6.816 t of starch:
    // × 200 ÷ 0.71 × 85 % = 1,632.00; the other 5.184 t × 110 = 570.24.
    const load = { ...LOAD, basics: METRIC, net: '20000', corn: '172', hay: '99' };
    expect(amountsBy(STARCH_AND_FORAGE, load)).toEqual({
      amounts: ['1632.00', '570.24'],
      total: '2202.24',
    });
  });

  test('without a quote for hay the load waits', () => {
    expect(priceByTemplate(STARCH_AND_FORAGE, { ...LOAD, corn: '4.20' })).toMatchObject({
      status: 'waiting',
      reason: 'no-quote',
    });
  });
});
