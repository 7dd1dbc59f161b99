/**
 * What the builder's panel shows of a formula: the settlement's own figures, on one feed and by one set of quotes.
 */
import { describe, expect, test } from 'vitest';
import { chartOf, FRAME } from '../../src/app/builder/curve-picture.ts';
import { exampleStrip } from '../../src/app/builder/example-strip.ts';
import { isQuote, trialTests, tryFormula } from '../../src/app/builder/tried-formula.ts';
import { checkAgreement } from '../../src/domain/agreement/check-agreement.ts';
import type { Agreement } from '../../src/domain/agreement/document.ts';
import { decimal, whole } from '../../src/domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../src/domain/numbers/printing.ts';

function agreement(price: readonly unknown[], references: unknown = {}): Agreement {
  const checked = checkAgreement({
    format: 'huskledger-agreement/1',
    id: 'A-1',
    seller: 'Quillback Acres',
    buyer: 'Tarn Hollow Dairy',
    feed: 'whole-ear-corn',
    currency: 'USD',
    timeZone: 'America/Boise',
    references,
    price,
  });
  if (!checked.agreement) throw new Error(JSON.stringify(checked.problems));
  return checked.agreement;
}

const flat = (rate: string) => ({ term: 'flat', label: 'Price', rate, per: 'short-ton', weight: 'as-fed' });
const CORN = {
  corn: {
    series: 'corn-bid',
    unit: 'bushel',
    poundsPerUnit: '56',
    dryMatterPercent: '84.5',
    starchPercentOfDryMatter: '71',
    rule: { kind: 'delivery-day' },
  },
};
const GRAIN = {
  term: 'constituent',
  label: 'Starch',
  of: 'starch',
  at: { reference: 'corn', per: 'starch' },
};
const NOTHING = { before: undefined, lotTests: [], quotes: new Map(), distance: undefined };

describe('prices of a formula', () => {
  test('a flat price is that price on every load, and twice it is twice the money', () => {
    const { examples } = tryFormula({
      ...NOTHING,
      before: agreement([flat('50')]),
      after: agreement([flat('100')]),
    });
    expect(examples.after).toHaveLength(5);
    for (const [index, { price }] of examples.after.entries()) {
      const before = examples.before?.[index]?.price;
      if (price.impossible !== undefined || !before || before.impossible !== undefined)
        throw new Error('there is no price');
      // 48,000 lb are 24 short tons.
      expect(printFixed(price.total, 2)).toBe('2400.00');
      expect(printFixed(before.total, 2)).toBe('1200.00');
      expect(printFixed(price.perTonAsFed, 2)).toBe('100.00');
    }
  });

  test('the grid follows dry matter and starch as the formula does, worked by hand', () => {
    const { grid } = tryFormula({
      ...NOTHING,
      quotes: new Map([['corn', '4.732']]),
      after: agreement([GRAIN], CORN),
    });
    expect(grid.map(({ dryMatter }) => printDecimal(dryMatter))).toEqual(['52', '56', '60', '64']);
    for (const { after } of grid) {
      expect(after.map(({ starch }) => printDecimal(starch))).toEqual(['48', '52', '56', '60']);
      // 4.732 ÷ (56 × 0.845 × 0.71) is a rate per pound of starch; a ton of dry matter has 2,000 × starch of them.
      const perPound = 4.732 / (56 * 0.845 * 0.71);
      for (const { starch, price } of after) {
        if (price.impossible !== undefined) throw new Error(price.impossible);
        const byHand = (2000 * Number(printDecimal(starch)) * perPound) / 100;
        expect(Number(printFixed(price.perTonDry, 4))).toBeCloseTo(byHand, 2);
      }
    }
  });

  test('both versions stand at one quote: the typed one, or one that is assumed for both', () => {
    const [before, after] = [agreement([GRAIN], CORN), agreement([{ ...GRAIN, sharePercent: '50' }], CORN)];
    const typed = tryFormula({ ...NOTHING, before, after, quotes: new Map([['corn', '5']]) });
    expect([...typed.quotes]).toEqual([['corn', '5']]);
    const assumed = tryFormula({ ...NOTHING, before, after });
    expect(isQuote(assumed.quotes.get('corn') ?? '')).toBe(true);
    const total = (of: typeof assumed.examples.before) => {
      const price = of?.[0]?.price;
      if (!price || price.impossible !== undefined) throw new Error('there is no price');
      return Number(printFixed(price.total, 2));
    };
    expect(total(assumed.examples.after) * 2).toBeCloseTo(total(assumed.examples.before), 1);
  });

  test('a reference that the version before alone has still gets a quote', () => {
    const { quotes, examples } = tryFormula({
      ...NOTHING,
      before: agreement([GRAIN], CORN),
      after: agreement([flat('100')]),
    });
    expect([...quotes.keys()]).toEqual(['corn']);
    expect(examples.before?.every(({ price }) => price.impossible === undefined)).toBe(true);
  });
});

test('a lot’s tests are read, moisture as dry matter; what is no figure is left out', () => {
  const tests = trialTests([
    { moisture: '42', starch: '55', colour: '7' },
    { 'dry-matter': '60', ndf: 'about 20' },
    { note: 'none' },
  ]);
  const shown = tests.map((test) => [...test].map(([name, figure]) => [name, printDecimal(figure)]));
  expect(shown).toEqual([
    [
      ['dry-matter', '58'],
      ['starch', '55'],
    ],
    [['dry-matter', '60']],
  ]);
});

test.each([
  ['4.25', true],
  ['0', true],
  ['-1', false],
  ['4,25', false],
  ['', false],
])('%j can be a quote: %s', (text, can) => {
  expect(isQuote(text)).toBe(can);
});

describe('the chart', () => {
  const point = (starch: number, price: number | undefined) => ({
    starch: whole(starch),
    ndf: whole(25),
    price:
      price === undefined
        ? { impossible: 'no such feed' }
        : { total: whole(price), perTonAsFed: whole(price), perTonDry: whole(price) },
  });

  test('lines lie within the frame, higher where the price is higher', () => {
    const chart = chartOf([point(48, 100), point(55, 150), point(62, 200)], undefined);
    const spots = (chart?.after.pieces[0] ?? '').split(' ').map((spot) => spot.split(',').map(Number));
    expect(spots).toHaveLength(3);
    expect(spots[0]?.[0]).toBe(FRAME.left);
    expect(spots[2]?.[0]).toBe(FRAME.width - FRAME.right);
    const heights = spots.map(([, y]) => y ?? Number.NaN);
    expect(heights).toEqual([...heights].sort((one, other) => other - one));
    for (const y of heights) {
      expect(y).toBeGreaterThan(FRAME.top);
      expect(y).toBeLessThan(FRAME.height - FRAME.bottom);
    }
    expect(chart?.up.map(({ label }) => label)).toContain('150');
    expect(chart?.across.length).toBeGreaterThan(1);
  });

  test('feed without a price breaks a line', () => {
    const chart = chartOf(
      [point(48, 1), point(49, 2), point(50, undefined), point(51, 3), point(52, 4)],
      undefined,
    );
    expect(chart?.after.pieces).toHaveLength(2);
  });

  test('the names of lines that end together stand apart', () => {
    const line = [point(48, 100), point(62, 200)];
    const chart = chartOf(line, line);
    expect(Math.abs((chart?.after.end?.y ?? 0) - (chart?.before?.end?.y ?? 0))).toBeCloseTo(16, 6);
  });

  test('a level line has a chart, and nothing has none', () => {
    expect(chartOf([point(48, 100), point(62, 100)], undefined)?.up.length).toBeGreaterThan(1);
    expect(chartOf([point(48, undefined)], undefined)).toBeUndefined();
  });
});

test('an example load as a strip', () => {
  const figures = new Map([
    ['dry-matter', decimal('58')],
    ['starch', decimal('55')],
    ['ndf', decimal('25')],
  ] as const);
  const strip = exampleStrip(
    { label: 'x', figures, net: whole(48_000), unit: 'lb', assumed: [] },
    (figure) => figure,
  );
  expect(strip.weight).toBe('48000 lb');
  expect([strip.water?.percent, strip.starch?.percent, strip.fibre?.percent, strip.restPercent]).toEqual([
    '42.0',
    '31.9',
    '14.5',
    '11.6',
  ]);
});
