/**
 * A share of shelled corn's value: the words, and the amount of a load that was worked by hand, for each feed.
 */
import { describe, expect, test } from 'vitest';
import { FEED_KINDS } from '../../../src/domain/agreement/measures.ts';
import { ENERGY_SHARE } from '../../../src/domain/templates/energy-share.ts';
import { STARTING } from '../../../src/domain/templates/starting-figures.ts';
import { amountsBy, BASICS, METRIC, priceByTemplate } from './priced-by-template.ts';
import { wordsBy } from './words-by-template.ts';

test('words', () => {
  expect(wordsBy(ENERGY_SHARE)).toContain(
    'The buyer pays for the pounds of dry matter, at 85 % of what the corn price comes to per pound of dry matter.',
  );
  expect(wordsBy(ENERGY_SHARE)).not.toContain('Starch is found so');
});

describe('amounts', () => {
  // At 4.732 a bushel, 0.10 a pound of dry matter: 40,000 lb × dry matter × 0.10 × the feed's share.
  const rows: [feed: (typeof FEED_KINDS)[number], dryMatter: string, amount: string][] = [
    ['whole-ear-corn', '60', '2040.00'], // 24,000 lb × 0.085
    ['high-moisture-ear-corn', '65', '2340.00'], // 26,000 lb × 0.09
    ['high-moisture-shelled-corn', '70', '2800.00'], // 28,000 lb × 0.10
    ['corn-silage', '35', '1050.00'], // 14,000 lb × 0.075
    ['dry-shelled-corn', '85', '3400.00'], // 34,000 lb × 0.10
  ];
  test.each(rows)('%s at %s % dry matter: %s', (feed, dryMatter, amount) => {
    const load = { basics: { ...BASICS, feed }, net: '40000', dryMatter, corn: '4.732' };
    expect(amountsBy(ENERGY_SHARE, load)).toEqual({ amounts: [amount], total: amount });
  });

  test('by the tonne: 12 t of dry matter × 200 × 85 %', () => {
    const load = { basics: METRIC, net: '20000', dryMatter: '60', corn: '172' };
    expect(amountsBy(ENERGY_SHARE, load).total).toBe('2040.00');
  });

  test('no feed is worth more than shelled corn', () => {
    for (const feed of FEED_KINDS)
      expect(Number(STARTING[feed].energyPercent), feed).toBeLessThanOrEqual(100);
  });

  test('starch is not needed, and a load that is too wet waits for the buyer', () => {
    const load = { net: '40000', corn: '4.20' };
    expect(priceByTemplate(ENERGY_SHARE, { ...load, dryMatter: '55' }).status).toBe('settled');
    expect(priceByTemplate(ENERGY_SHARE, { ...load, dryMatter: '54.9' })).toMatchObject({
      status: 'waiting',
      reason: 'choice-needed',
    });
  });
});
