/**
 * Price lines as they begin, as they fit together, and in a few words.
 */
import { describe, expect, test } from 'vitest';
import { tidyFigure } from '../../src/app/builder/figure-text.ts';
import { beginTerm, fitWeight, methodOf, tonOf, unitOf } from '../../src/app/builder/term-fitting.ts';
import { termSummary } from '../../src/app/builder/term-summary.ts';

const CORN = { reference: 'corn', ton: 'short-ton' } as const;

describe('a line in a few words', () => {
  test.each([
    [
      { ...beginTerm('constituent', CORN), sharePercent: '95' },
      '95 % of the corn price, for grain by its starch',
    ],
    [beginTerm('remainder', CORN), '100 % of the corn price, for what is left after grain by its starch'],
    [{ ...beginTerm('remainder', CORN), after: [] }, '100 % of the corn price, for all dry matter'],
    [beginTerm('equivalent-bushels', CORN), '100 % of the corn price, by the bushel; bushels by dry matter'],
    [{ ...beginTerm('flat', CORN), rate: '-4.25' }, '−4.25 USD per short ton as fed'],
    [{ term: 'flat', label: 'Hauling', rate: '-3', per: 'mile' }, '−3 USD per mile'],
    [
      { ...beginTerm('schedule', CORN), neutral: { from: '0', to: '26' } },
      'NDF outside 0 to 26 % of dry matter',
    ],
    [
      { ...beginTerm('limit', CORN), floor: '62.50', ceiling: '90' },
      'at least 62.50, at most 90 USD per short ton as fed',
    ],
    [beginTerm('flat', CORN), '… USD per short ton as fed'],
    [{ term: 'unheard-of' }, 'a line of no known kind'],
    [undefined, 'a line of no known kind'],
    [{ term: 'constituent', of: 7, at: 'corn' }, '100 % of the … price, for …'],
  ])('%#: %s', (term, words) => {
    expect(termSummary(term, 'USD')).toBe(words);
  });
});

describe('one choice changes what else a line holds', () => {
  test('money per load has no weight, and one per ton has', () => {
    const flat = { term: 'flat', rate: '5', per: 'tonne', weight: 'dry-matter' };
    expect(fitWeight('load', flat)).toEqual({ term: 'flat', rate: '5', per: 'load' });
    expect(fitWeight('cwt', flat)).toEqual({ ...flat, per: 'cwt' });
    expect(fitWeight('lb', { term: 'flat', per: 'mile' })).toEqual({
      term: 'flat',
      per: 'lb',
      weight: 'as-fed',
    });
  });

  test('a percent is per nothing, and money per something', () => {
    const schedule = { term: 'schedule', unit: 'money', per: 'load' };
    const percent = unitOf('percent', schedule);
    expect(percent).toEqual({ term: 'schedule', unit: 'percent' });
    expect(unitOf('money', percent)).toEqual({
      term: 'schedule',
      unit: 'money',
      per: 'short-ton',
      weight: 'as-fed',
    });
  });

  test('a bushel method begins with its own figures only', () => {
    expect(methodOf('shrink')).toEqual({ kind: 'shrink' });
    expect(methodOf('table')).toEqual({ kind: 'table', rows: [{}], between: 'linear' });
  });
});

test('a draft that prices anything by the tonne is a metric one', () => {
  expect(tonOf({ price: [{ per: 'tonne' }] })).toBe('tonne');
  expect(tonOf({ references: { barley: { unit: 'tonne' } } })).toBe('tonne');
  expect(tonOf({ price: [{ per: 'short-ton' }, 'no term'] })).toBe('short-ton');
  expect(tonOf({})).toBe('short-ton');
});

test.each([
  ['−4.25', '-4.25'],
  [' 1 250 ', '1250'],
  ['4,25', '4.25'],
  ['0,0855', '0.0855'],
  ['1,500', '1,500'],
  ['1,500.25', '1,500.25'],
  ['abc', 'abc'],
  ['', ''],
])('%j is written %j', (typed, written) => {
  expect(tidyFigure(typed)).toBe(written);
});
