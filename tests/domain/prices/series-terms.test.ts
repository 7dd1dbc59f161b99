/**
 * Who enters quotes, who may change that, and the days of a series without a quote.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { missingWeekdays } from '../../../src/domain/prices/missing-days.ts';
import {
  contestedUntil,
  type Enterer,
  mayEnter,
  type SeriesTerms,
  takesFromOther,
} from '../../../src/domain/prices/series-terms.ts';

const terms = (enteredBy: Enterer, contestDays = 5): SeriesTerms => ({
  source: 'the elevator’s board',
  enteredBy,
  contestDays,
});

describe('who enters', () => {
  test('is either side, or the one that was named', () => {
    expect((['both', 'seller', 'buyer'] as const).map((who) => mayEnter(terms(who), 'seller'))).toEqual([
      true,
      true,
      false,
    ]);
  });

  test.each<[Enterer, Enterer, 'entering' | undefined, 'entering' | undefined]>([
    ['both', 'both', undefined, undefined],
    ['both', 'seller', 'entering', undefined],
    ['both', 'buyer', undefined, 'entering'],
    ['seller', 'both', undefined, 'entering'],
    ['seller', 'buyer', undefined, 'entering'],
    ['buyer', 'seller', 'entering', undefined],
  ])('from %s to %s', (before, after, bySeller, byBuyer) => {
    expect(takesFromOther(terms(before), terms(after), 'seller')).toBe(bySeller);
    expect(takesFromOther(terms(before), terms(after), 'buyer')).toBe(byBuyer);
  });

  test('the days to contest are the other side’s: it may shorten them, and the one that enters may add some', () => {
    expect(takesFromOther(terms('seller', 5), terms('seller', 4), 'seller')).toBe('days');
    expect(takesFromOther(terms('seller', 5), terms('seller', 6), 'seller')).toBeUndefined();
    expect(takesFromOther(terms('seller', 5), terms('seller', 4), 'buyer')).toBeUndefined();
    expect(takesFromOther(terms('seller', 5), terms('seller', 6), 'buyer')).toBe('days');
    expect(takesFromOther(terms('both', 0), terms('seller', 9), 'buyer')).toBeUndefined();
  });

  test('days are counted from the entry', () => {
    expect(contestedUntil(terms('seller', 2), 1_000)).toBe(1_000 + 2 * 86_400_000);
  });
});

test('weekdays between quotes that have none', () => {
  const dates = ['2026-09-03', '2026-09-04', '2026-09-08', '2026-09-09'] as unknown as LocalDate[];
  // 2026-09-07 is the first Monday of September, a holiday in the USA; the 5th and 6th are a weekend.
  expect(missingWeekdays(dates)).toEqual(['2026-09-07']);
  expect(missingWeekdays([])).toEqual([]);
  // A weekly price has no missing days.
  expect(missingWeekdays(['2026-09-01', '2026-09-08', '2026-09-15'] as unknown as LocalDate[])).toEqual([]);
});
