/**
 * The season's own figures, by which loads are priced again: means of quotes, and the average test. Examples by hand, and
 * many results at random against integers that are put together in another way.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Agreement } from '../../../src/domain/agreement/document.ts';
import type { Tested } from '../../../src/domain/agreement/measures.ts';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { decimal, type Exact } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import type { PriceSeries } from '../../../src/domain/prices/price-series.ts';
import type { Basis, LabResult, TestRules } from '../../../src/domain/samples/lab-result.ts';
import {
  atFixedPrices,
  seasonTest,
  seriesToAverage,
  type TestedLoad,
  windowMean,
} from '../../../src/domain/season-close/true-up.ts';

const day = (text: string) => text as LocalDate;
const series = (quotes: Readonly<Record<string, string>>): PriceSeries =>
  Object.entries(quotes).map(([date, price]) => ({ date: day(date), price: decimal(price) }));
const WINDOW = { from: day('2026-09-01'), to: day('2026-11-30') };

function meanOf(quotes: Readonly<Record<string, string>>, rounding: 'half-up' | 'half-even' = 'half-up') {
  const found = windowMean({ name: 'corn', series: series(quotes), rounding }, WINDOW);
  return 'waits' in found ? found.waits : `${printDecimal(found.mean)} of ${found.quotes}`;
}

describe('the mean of a window', () => {
  test('is of all quotes in it, both its days included, to 4 decimals', () => {
    const quotes = { '2026-08-31': '9', '2026-09-01': '4.20', '2026-10-01': '4.25', '2026-11-30': '4.31' };
    // 12.76 ÷ 3 = 4.25333…
    expect(meanOf({ ...quotes, '2026-12-01': '9' })).toBe('4.2533 of 3');
    expect(meanOf(quotes)).toBe('4.2533 of 3');
  });

  test('is rounded by the agreement’s rule', () => {
    // 8.0001 ÷ 2 = 4.00005.
    const tie = { '2026-09-01': '4', '2026-11-30': '4.0001' };
    expect(meanOf(tie)).toBe('4.0001 of 2');
    expect(meanOf(tie, 'half-even')).toBe('4 of 2');
  });

  test('waits until a quote closes its last day, and says so', () => {
    expect(meanOf({ '2026-09-01': '4', '2026-11-29': '4.1' })).toBe(
      'the series corn ends on 2026-11-29; a quote of 2026-11-30 or later closes the days to average',
    );
    expect(meanOf({})).toBe(
      'the series corn has no quote at all; a quote of 2026-11-30 or later closes the days to average',
    );
    expect(meanOf({ '2026-08-01': '4', '2026-12-01': '4' })).toBe(
      'the series corn has no quote from 2026-09-01 to 2026-11-30',
    );
  });
});

const RULES: TestRules = { rounding: 'half-up', decimals: new Map() };

function load(
  pounds: string,
  figures: Partial<Record<Tested, string>>,
  { basis = 'dry-matter', rules = RULES }: { basis?: Basis; rules?: TestRules } = {},
): TestedLoad {
  const { 'dry-matter': dryMatter = '100', ...others } = figures;
  const result: LabResult = {
    sample: 'S',
    basis,
    dryMatter: decimal(dryMatter),
    reported: Object.keys(others) as Tested[],
    figures: Object.values(others).map((figure) => decimal(figure)),
  };
  return { netPounds: decimal(pounds), result, rules };
}

function averaged(loads: readonly TestedLoad[]): Record<string, string> {
  const found = seasonTest(loads, 'half-up');
  if (!found) return {};
  const named = found.reported.map((measure, index) => [measure, printed(found.figures[index])] as const);
  return { 'dry-matter': printed(found.dryMatter), ...Object.fromEntries(named) };
}

function printed(figure: Exact | undefined): string {
  return figure ? printDecimal(figure) : 'none';
}

describe('the season’s average test', () => {
  test('weighs dry matter by the load, parts by dry matter, and the rest by the load', () => {
    // Dry: 60 % of 48,000 is 28,800 lb; 50 % of 26,000 is 13,000 lb; 41,800 of 74,000 lb are 56.486… %.
    // Starch: (70 × 28,800 + 74 × 13,000) ÷ 41,800 = 71.244…; pH: (4.1 × 48,000 + 3.9 × 26,000) ÷ 74,000 = 4.0297….
    const loads = [
      load('48000', { 'dry-matter': '60.0', starch: '70.0', ph: '4.10' }),
      load('26000', { 'dry-matter': '50', starch: '74', ph: '3.9' }),
    ];
    expect(averaged(loads)).toEqual({ 'dry-matter': '56.5', starch: '71.2', ph: '4.03' });
  });

  test('is over the loads that have a figure alone', () => {
    const loads = [
      load('10000', { 'dry-matter': '50', starch: '60' }),
      load('30000', { 'dry-matter': '70' }),
      load('10000', { 'dry-matter': '50', starch: '70' }),
    ];
    expect(averaged(loads)).toEqual({ 'dry-matter': '62', starch: '65' });
    expect(seasonTest([], 'half-up')).toBeUndefined();
  });

  test('takes figures as the agreement uses them', () => {
    // As fed 30 % of 60 % dry matter is 50 % of it.
    expect(averaged([load('10000', { 'dry-matter': '60', starch: '30' }, { basis: 'as-fed' })])).toEqual({
      'dry-matter': '60',
      starch: '50',
    });
    // 31.34 and 31.44 are used as 31.3 and 31.4; their mean is rounded to what went in, not to two decimals.
    const rules: TestRules = { rounding: 'half-up', decimals: new Map([['ndf', 1]]) };
    const loads = ['31.34', '31.44'].map((ndf) => load('10000', { 'dry-matter': '50', ndf }, { rules }));
    expect(averaged(loads)).toEqual({ 'dry-matter': '50', ndf: '31.4' });
  });

  test('against integers, of any loads', () => {
    const tenths = fc.bigInt({ min: 1n, max: 1_000n });
    const one = fc.record({
      pounds: fc.bigInt({ min: 1n, max: 80_000n }),
      dry: tenths,
      starch: tenths,
      ph: tenths,
    });
    const text = (units: bigint) => `${units / 10n}.${units % 10n}`;
    /** Tenths, half-up, of n ÷ d. */
    const tenth = (n: bigint, d: bigint) => (2n * n + d) / (2n * d);
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 30 }), (loads) => {
        let [wet, dry, starch, ph] = [0n, 0n, 0n, 0n];
        for (const of of loads) {
          wet += of.pounds;
          dry += of.pounds * of.dry;
          starch += of.pounds * of.dry * of.starch;
          ph += of.pounds * of.ph;
        }
        const found = averaged(
          loads.map((of) =>
            load(String(of.pounds), {
              'dry-matter': text(of.dry),
              starch: text(of.starch),
              ph: text(of.ph),
            }),
          ),
        );
        const trimmed = (units: bigint) => text(units).replace(/\.0$/, '');
        expect(found).toEqual({
          'dry-matter': trimmed(tenth(dry, wet)),
          starch: trimmed(tenth(starch, dry)),
          ph: trimmed(tenth(ph, wet)),
        });
      }),
      { numRuns: 300 },
    );
  });
});

describe('prices that stand fixed', () => {
  const reference = { unit: 'bushel', poundsPerUnit: '56', dryMatterPercent: '84.5', series: 'corn' };
  const term = (name: string) =>
    ({
      ...{ term: 'remainder', label: name, after: [] },
      at: { reference: name, per: 'dry-matter' },
    }) as const;
  const agreement = {
    references: {
      day: { ...reference, rule: { kind: 'delivery-day' }, basis: '-0.15', floor: '3.60' },
      month: { ...reference, series: 'hay', rule: { kind: 'month-average' } },
      elected: {
        ...reference,
        series: 'beans',
        rule: { kind: 'seller-elects', from: '2026-09-01', to: '2026-11-30' },
      },
      fixed: { ...reference, rule: { kind: 'fixed', price: '4.00' } },
      unused: { ...reference, series: 'oats', rule: { kind: 'average', quotes: '3' } },
    },
    price: ['day', 'month', 'elected', 'fixed'].map(term),
  } as unknown as Agreement;

  test('the series that the terms follow by day or by mean', () => {
    expect(seriesToAverage(agreement)).toEqual(['corn', 'hay']);
  });

  test('the season’s mean where a rule follows the market, else the quote of the settlement', () => {
    const settled = new Map(
      Object.entries({ day: '4.20', month: '180', elected: '11.25', fixed: '4.00' }).map(([name, quote]) => [
        name,
        { quote: decimal(quote) },
      ]),
    );
    const means = new Map([['corn', { series: 'corn', mean: decimal('4.2533'), quotes: 3 }]]);
    const { references } = atFixedPrices(agreement, { settled, means });
    expect(Object.values(references).map(({ rule }) => rule)).toEqual([
      { kind: 'fixed', price: '4.2533' },
      { kind: 'fixed', price: '180' },
      { kind: 'fixed', price: '11.25' },
      { kind: 'fixed', price: '4' },
      { kind: 'average', quotes: '3' },
    ]);
    expect(references['day']).toMatchObject({ basis: '-0.15', floor: '3.60' });
  });
});
