/**
 * Example loads: always five, always feed that can be, and from a lot's own tests where it has any.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CONSTITUENTS, FEED_KINDS, TESTED, type Tested } from '../../../src/domain/agreement/measures.ts';
import { add, compare, type Exact, HUNDRED, ratio, ZERO } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import { type ExampleLoad, exampleLoads } from '../../../src/domain/worth/example-loads.ts';
import { usualFeed } from '../../../src/domain/worth/usual-figures.ts';
import { figures } from './drafts.ts';

const of = ({ figures: all }: Pick<ExampleLoad, 'figures'>, measure: Tested): Exact =>
  all.get(measure) ?? ZERO;
const told = (load: ExampleLoad, ...measures: readonly Tested[]) =>
  measures.map((measure) => printDecimal(of(load, measure))).join(' ');
const examplesOf = (...tests: readonly Parameters<typeof figures>[0][]) =>
  exampleLoads({ feed: 'whole-ear-corn', tests: tests.map(figures), unit: 'lb' });

/** Every measure has a figure, none below 0; the parts fit into the dry matter, and ADF into NDF. */
function expectFeed(load: ExampleLoad): void {
  for (const measure of TESTED) expect(compare(of(load, measure), ZERO), measure).toBeGreaterThanOrEqual(0);
  expect(compare(of(load, 'dry-matter'), HUNDRED)).toBeLessThanOrEqual(0);
  expect(compare(of(load, 'dry-matter'), ZERO)).toBe(1);
  expect(compare(of(load, 'adf'), of(load, 'ndf'))).toBeLessThanOrEqual(0);
  const parts = CONSTITUENTS.filter((measure) => measure !== 'adf').reduce(
    (sum, measure) => add(sum, of(load, measure)),
    ZERO,
  );
  // Three parts that are shrunk to fit are each kept to a hundredth.
  expect(compare(parts, add(HUNDRED, ratio(2n, 100n)))).toBeLessThanOrEqual(0);
}

describe('without tests', () => {
  test.each(FEED_KINDS)('five loads that can be, none like another: %s', (feed) => {
    const loads = exampleLoads({ feed, tests: [], unit: 'kg' });
    expect(loads).toHaveLength(5);
    expect(new Set(loads.map((load) => told(load, 'dry-matter', 'starch'))).size).toBe(5);
    expect(new Set(loads.map(({ label }) => label)).size).toBe(5);
    for (const load of loads) {
      expectFeed(load);
      expect(load.assumed).toEqual(TESTED);
      expect(`${printDecimal(load.net)} ${load.unit}`).toBe('22000 kg');
    }
  });

  test('the usual whole ear is what the trade expects', () => {
    // Common practice, no source: starch 50 to 60 % and NDF about 25 % of dry matter, moisture 40 to 45 %.
    const [usual, wetHusky] = examplesOf();
    expect(usual && told(usual, 'dry-matter', 'starch', 'ndf')).toBe('58 55 25');
    expect(wetHusky?.label).toBe('A wet load with more husk');
    expect(wetHusky && told(wetHusky, 'dry-matter', 'starch', 'ndf', 'adf')).toBe('53 50 30 13.2');
  });
});

describe('from a lot’s own tests', () => {
  test('one test stands as it is, and four loads are moved from it', () => {
    const loads = examplesOf({ 'dry-matter': '60', starch: '52', ndf: '28', ash: '2.1' });
    expect(loads.map(({ label }) => label)).toEqual([
      'As tested',
      'Wetter than the test, with more husk',
      'Drier than the test, with more grain',
      'Wetter than the test, with more grain',
      'Drier than the test, with more husk',
    ]);
    const [tested, moved] = loads;
    // ADF was not tested: 28 × 11/25, the usual part of NDF.
    expect(tested && told(tested, 'dry-matter', 'starch', 'ndf', 'ash', 'adf')).toBe('60 52 28 2.1 12.32');
    expect(tested?.assumed).not.toContain('ash');
    expect(tested?.assumed).toContain('adf');
    expect(moved && told(moved, 'dry-matter', 'starch', 'ndf')).toBe('55 47 33');
  });

  test('three tests stand beside their plain mean', () => {
    const loads = examplesOf(
      { 'dry-matter': '58', starch: '54', ndf: '26' },
      { 'dry-matter': '60', starch: '56', ndf: '24' },
      { 'dry-matter': '61', starch: '57', ndf: '23.5', ash: '2' },
    );
    expect(loads.map(({ label }) => label)).toEqual([
      'Test 1',
      'Test 2',
      'Test 3',
      'The mean of the 3 tests',
      'Wetter than the mean, with more husk',
    ]);
    // 179 ÷ 3 and 167 ÷ 3 to two decimals; ash is the mean of the one test that has it.
    const [, , , mean] = loads;
    expect(mean && told(mean, 'dry-matter', 'starch', 'ndf', 'ash')).toBe('59.67 55.67 24.5 2');
  });

  test('of many tests the extremes are shown, each once', () => {
    const loads = examplesOf(
      { 'dry-matter': '52', starch: '50', ndf: '30' },
      { 'dry-matter': '58', starch: '55', ndf: '25' },
      { 'dry-matter': '64', starch: '59', ndf: '21' },
      { 'dry-matter': '60', starch: '61', ndf: '20' },
    );
    // The wettest also has the least starch, so one load is moved from the mean instead.
    expect(loads.map(({ label }) => label)).toEqual([
      'The mean of the 4 tests',
      'The wettest test',
      'The driest test',
      'The test with the most starch',
      'Wetter than the mean, with more husk',
    ]);
  });

  test('any tests give five loads that can be', () => {
    const hundredths = (most: number) =>
      fc.integer({ min: 0, max: most * 100 }).map((n) => (n / 100).toFixed(2));
    const some = (figure: fc.Arbitrary<string>) => fc.option(figure, { nil: undefined });
    const tested = fc
      .record({
        'dry-matter': some(hundredths(90).map((text) => (text === '0.00' ? '5' : text))),
        starch: some(hundredths(60)),
        ndf: some(hundredths(38)),
        ash: some(hundredths(2)),
      })
      .map((test) =>
        figures(Object.fromEntries(Object.entries(test).filter(([, figure]) => figure !== undefined))),
      );
    fc.assert(
      fc.property(fc.constantFrom(...FEED_KINDS), fc.array(tested, { maxLength: 6 }), (feed, tests) => {
        const loads = exampleLoads({ feed, tests, unit: 'lb' });
        expect(loads).toHaveLength(5);
        for (const load of loads) expectFeed(load);
      }),
      { numRuns: 300 },
    );
  });

  test('a lone ADF or NDF pulls the others with it', () => {
    const [fibrous] = examplesOf({ 'dry-matter': '58', adf: '40' });
    expect(fibrous && told(fibrous, 'adf', 'ndf', 'starch')).toBe('40 40 40');
    const [husky] = examplesOf({ 'dry-matter': '58', ndf: '35' });
    expect(husky && told(husky, 'ndf', 'starch')).toBe('35 45');
  });
});

test('every feed’s usual figures lie within its usual range', () => {
  for (const feed of FEED_KINDS) {
    const { figures: usual, range } = usualFeed(feed);
    for (const measure of ['dry-matter', 'starch', 'ndf'] as const) {
      expect(compare(usual.get(measure) ?? ZERO, range[measure].low), `${feed} ${measure}`).toBe(1);
      expect(compare(usual.get(measure) ?? ZERO, range[measure].high), `${feed} ${measure}`).toBe(-1);
    }
  }
});
