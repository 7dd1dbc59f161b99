/**
 * What a formula pays on examples, over a grid and along rising starch, against figures worked by hand.
 */
import { describe, expect, test } from 'vitest';
import { decimal, type Exact, whole } from '../../../src/domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../../src/domain/numbers/printing.ts';
import { assumedQuotes } from '../../../src/domain/worth/assumed-quotes.ts';
import { exampleLoads } from '../../../src/domain/worth/example-loads.ts';
import { laboratoryScatter } from '../../../src/domain/worth/laboratory-scatter.ts';
import { priceExamples } from '../../../src/domain/worth/price-examples.ts';
import { priceCurve, priceGrid } from '../../../src/domain/worth/price-grid.ts';
import type { TriedPrice } from '../../../src/domain/worth/try-out.ts';
import { CORN, draft, FIBRE, figures, GRAIN, ROUND_QUOTES } from './drafts.ts';

const LOAD = { net: whole(48_000), unit: 'lb', distance: undefined } as const;
const told = (price: TriedPrice) =>
  price.impossible ??
  [price.total, price.perTonAsFed, price.perTonDry].map((money) => printFixed(money, 2)).join(' ');
const exact = (...texts: readonly string[]): Exact[] => texts.map(decimal);

describe('prices', () => {
  test('of the example loads, in all and per ton', () => {
    const loads = exampleLoads({ feed: 'whole-ear-corn', tests: [], unit: 'lb' });
    const [usual, wetHusky] = priceExamples(draft(), { loads, quotes: ROUND_QUOTES });
    // 27,840 dry lb at 0.10: grain 55/71 of it, 2,156.62; the rest at 60 %, 376.43. 24 short tons, 13.92 of dry matter.
    expect(usual && told(usual.price)).toBe('2533.05 105.54 181.97');
    // 25,440 dry lb: 50/71, 1,791.55, and 451.47; 12.72 short tons of dry matter.
    expect(wetHusky?.load.label).toBe('A wet load with more husk');
    expect(wetHusky && told(wetHusky.price)).toBe('2243.02 93.46 176.34');
  });

  test('of a formula with a haul are over a usual one where none is given', () => {
    const haul = { term: 'flat', label: 'Hauling', rate: '-3', per: 'mile' };
    const agreement = draft({ price: [GRAIN, FIBRE, haul] });
    const loads = exampleLoads({ feed: 'whole-ear-corn', tests: [], unit: 'lb' });
    const priced = (distance?: { length: Exact; unit: 'mile' }) =>
      priceExamples(agreement, { loads, quotes: ROUND_QUOTES, distance })[0]?.price;
    const totals = [priced(), priced({ length: whole(25), unit: 'mile' })].map(
      (price) => price && told(price),
    );
    expect(totals).toEqual([expect.stringMatching(/^2503\.05 /), expect.stringMatching(/^2458\.05 /)]);
  });

  test('over a grid, with moisture for dry matter and a reason where feed cannot be', () => {
    const { cells } = priceGrid(draft(), {
      rows: { measure: 'starch', values: exact('55', '80') },
      columns: { measure: 'ndf', values: exact('15', '25') },
      fixed: new Map([['moisture', decimal('42')]]),
      quotes: ROUND_QUOTES,
      load: LOAD,
    });
    // 80 % starch is more than the 71 % of grain, so all of it is grain: 2,784.00.
    expect(cells.map((row) => row.map(told))).toEqual([
      ['2533.05 105.54 181.97', '2533.05 105.54 181.97'],
      ['2784.00 116.00 200.00', 'starch and NDF together pass 100 % of dry matter'],
    ]);
  });

  test('along rising starch, with NDF held or giving way', () => {
    const curve = (fibre: 'held' | 'gives-way') =>
      priceCurve(draft(), {
        figures: figures({ 'dry-matter': '58', starch: '55', ndf: '25', adf: '11' }),
        starch: { from: decimal('50'), to: decimal('60'), step: decimal('2.5') },
        fibre,
        quotes: ROUND_QUOTES,
        load: LOAD,
      }).map(({ starch, ndf }) => `${printDecimal(starch)} ${printDecimal(ndf)}`);
    expect(curve('held')).toEqual(['50 25', '52.5 25', '55 25', '57.5 25', '60 25']);
    expect(curve('gives-way')).toEqual(['50 30', '52.5 27.5', '55 25', '57.5 22.5', '60 20']);
  });

  test('a curve with a step of nothing has no end and is a defect', () => {
    const step = { from: whole(50), to: whole(60), step: whole(0) };
    const request = {
      figures: figures({ 'dry-matter': '58' }),
      starch: step,
      fibre: 'held',
      quotes: ROUND_QUOTES,
      load: LOAD,
    } as const;
    expect(() => priceCurve(draft(), request)).toThrow('step');
  });

  test('a price that is fixed stays, whatever quote is given for its name', () => {
    const agreement = draft({ references: { corn: { ...CORN, rule: { kind: 'fixed', price: '4.732' } } } });
    const loads = exampleLoads({ feed: 'whole-ear-corn', tests: [], unit: 'lb' });
    const [usual] = priceExamples(agreement, { loads, quotes: new Map([['corn', '9']]) });
    expect(usual && told(usual.price)).toBe('2533.05 105.54 181.97');
  });
});

describe('assumed quotes', () => {
  const quoteOf = (ends: Readonly<Record<string, string>>) =>
    assumedQuotes(draft({ references: { corn: { ...CORN, ...ends } } })).get('corn');

  test.each([
    [{ floor: '3.60', ceiling: '5.40' }, '4.5'],
    // R is to be 4.50, so that the quote is 0.15 more.
    [{ floor: '3.60', ceiling: '5.40', basis: '-0.15' }, '4.65'],
    [{ floor: '4' }, '4.4'],
    [{ ceiling: '5' }, '4.5'],
    // 0.09 × 47.32 = 4.2588.
    [{}, '4.26'],
  ])('lie within what is agreed: %j', (ends, quote) => {
    expect(quoteOf(ends)).toBe(quote);
  });

  test('have the digits of the currency', () => {
    expect(assumedQuotes(draft({ currency: 'JPY' })).get('corn')).toBe('638.82');
  });

  test('give way to given ones, and are none for a fixed price', () => {
    expect(assumedQuotes(draft(), ROUND_QUOTES)).toEqual(ROUND_QUOTES);
    const fixed = draft({ references: { corn: { ...CORN, rule: { kind: 'fixed', price: '4' } } } });
    expect(assumedQuotes(fixed, ROUND_QUOTES).size).toBe(0);
  });
});

describe('laboratory scatter', () => {
  // Standard deviations as published in the methods named in laboratory-scatter.ts; R = 2.8 s_R by ISO 5725-6.
  test.each([
    ['dry-matter', '58', '0.71456', '1.25048'],
    ['moisture', '42', '0.71456', '1.25048'],
    ['ndf', '25', '1.036', '6.272'],
    ['adf', '11', '1.568', '6.832'],
    ['crude-protein', '8', '1.456', '1.456'],
    ['starch', '55', '4.48', '6.16'],
  ] as const)('of %s at %s is %s to %s points', (measure, figure, low, high) => {
    const scatter = laboratoryScatter(measure, decimal(figure));
    expect(scatter && [scatter.low, scatter.high].map((limit) => printDecimal(limit))).toEqual([low, high]);
  });

  test('is unknown where nothing is published', () => {
    expect(laboratoryScatter('ash', whole(2))).toBeUndefined();
  });
});
