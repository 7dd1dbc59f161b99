/**
 * Dry-equivalent bushels in three ways: the words, and the quantities and amounts of loads that were worked by hand.
 */
import { describe, expect, test } from 'vitest';
import {
  BUSHELS_BY_DRY_MATTER,
  BUSHELS_BY_SHRINK,
  BUSHELS_BY_TABLE,
} from '../../../src/domain/templates/dry-bushels.ts';
import type { Template } from '../../../src/domain/templates/template.ts';
import { BASICS, METRIC, priceByTemplate } from './priced-by-template.ts';
import { wordsBy } from './words-by-template.ts';

// 40,000 lb of whole-ear corn at 40 % moisture; corn at 4.732 a bushel, of which the feed is paid 85 %: 4.0222.
const LOAD = { net: '40000', dryMatter: '60', corn: '4.732' };

describe('in bushels', () => {
  const rows: [template: Template, quantity: string, amount: string][] = [
    // 24,000 lb of dry matter ÷ 47.32 lb a bushel = 507.185122…; × 4.0222 = 2,040.00.
    [BUSHELS_BY_DRY_MATTER, '507.185123', '2040.00'],
    // 24.5 points × 1.1834 = 28.9933 % off: 40,000 × 71.0067 % = 28,402.68 lb ÷ 56 = 507.190714…; × 4.0222 = 2,040.0224…
    [BUSHELS_BY_SHRINK, '507.190714', '2040.02'],
    // The row of 40 %: 56 × 84.5 ÷ 60 = 78.8666…, printed 78.87. 40,000 ÷ 78.87 = 507.163687…; × 4.0222 = 2,039.9137…
    [BUSHELS_BY_TABLE, '507.163687', '2039.91'],
  ];
  test.each(rows)('$id: %s bushels, %s', (template, quantity, amount) => {
    const { lines, total } = priceByTemplate(template, LOAD);
    expect(lines).toMatchObject([{ label: 'Feed as dry bushels of corn', quantity, unit: 'bushel', amount }]);
    expect(total).toBe(amount);
  });

  test('between two rows of the table', () => {
    // 40.5 %: half way between 78.87 and 80.20 is 79.535 lb; 40,000 ÷ 79.535 = 502.923241…; × 4.0222 = 2,022.8578…
    const { lines } = priceByTemplate(BUSHELS_BY_TABLE, { ...LOAD, dryMatter: '59.5' });
    expect(lines).toMatchObject([{ quantity: '502.923241', amount: '2022.86' }]);
  });
});

describe('in tonnes', () => {
  // 20,000 kg at 40 % moisture; corn at 172 a tonne, of which the feed is paid 85 %: 146.20.
  const load = { basics: METRIC, net: '20000', dryMatter: '60', corn: '172' };
  const rows: [template: Template, amount: string][] = [
    // 12 t ÷ 0.86 = 13.953488… t; × 146.20 = 2,040.00.
    [BUSHELS_BY_DRY_MATTER, '2040.00'],
    // 26 points × 1.1628 = 30.2328 % off: 20 × 69.7672 % = 13.95344 t; × 146.20 = 2,039.992928.
    [BUSHELS_BY_SHRINK, '2039.99'],
    // 2,204.6226… × 86 ÷ 60 = 3,159.9590…, up to 3,159.96 lb. 20,000 kg = 44,092.452… lb ÷ 3,159.96 = 13.953484… t;
    // × 146.20 = 2,039.9993…
    [BUSHELS_BY_TABLE, '2040.00'],
  ];
  test.each(rows)('$id: %s', (template, amount) => {
    expect(priceByTemplate(template, load)).toMatchObject({
      lines: [{ label: 'Feed as dry tonnes of corn', amount }],
      total: amount,
    });
  });
});

describe('words', () => {
  test('by dry matter', () => {
    expect(wordsBy(BUSHELS_BY_DRY_MATTER)).toContain(
      'pounds of dry matter, divided by the pounds of dry matter in one bushel of corn (56 lb at 84.5 %). Each bushel is paid at 85 % of the corn price.',
    );
  });

  test('by shrink, from the moisture of the reference', () => {
    expect(wordsBy(BUSHELS_BY_SHRINK)).toContain(
      '1.1834 % of the weight is taken off for each point of moisture above 15.5 %',
    );
    expect(wordsBy(BUSHELS_BY_SHRINK, METRIC)).toContain(
      '1.1628 % of the weight is taken off for each point of moisture above 14 %',
    );
  });

  test('by table, over all moistures at which the feed is taken', () => {
    const words = wordsBy(BUSHELS_BY_TABLE);
    expect(words).toContain('28 %: 65.72 lb; 29 %: 66.65 lb; 30 %: 67.60 lb');
    expect(words).toContain('49 %: 92.78 lb; 50 %: 94.64 lb. Between two rows the pounds are in proportion');
    expect(words).toContain('A load drier than the table takes its first row');
  });
});

test('shelled corn at its own moisture is paid its whole price in each way', () => {
  // 56,000 lb at 15.5 % are 1,000 bushels × 4.20. In the table 15.5 % lies half way between 55.67 and 56.33 lb: 56.
  const basics = { ...BASICS, feed: 'dry-shelled-corn' } as const;
  for (const template of [BUSHELS_BY_DRY_MATTER, BUSHELS_BY_SHRINK, BUSHELS_BY_TABLE]) {
    const load = { basics, net: '56000', dryMatter: '84.5', corn: '4.20' };
    expect(priceByTemplate(template, load).total, template.id).toBe('4200.00');
  }
});
