/**
 * Late interest and day counts against published figures.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../src/domain/dates/local-date.ts';
import { countDays, type DayCount } from '../../src/domain/money/day-count.ts';
import { interestOn } from '../../src/domain/money/interest.ts';
import { decimal } from '../../src/domain/numbers/exact.ts';
import { printUnits } from '../../src/domain/numbers/printing.ts';

describe('1,500.00 at 6.5 %, due 1 April and paid 11 April (5 CFR 1315.17, read)', () => {
  const late = (dayCount: DayCount) =>
    interestOn(
      {
        dueOn: '2026-04-01' as LocalDate,
        changes: [
          { on: '2026-03-02' as LocalDate, change: 150_000n },
          { on: '2026-04-11' as LocalDate, change: -150_000n },
        ],
        through: '2026-04-11' as LocalDate,
      },
      { percentPerYear: decimal('6.5'), dayCount },
      { currency: 'USD', decimals: 2, rounding: 'half-up' },
    );

  test('bears from the day after it was due through the day paid: 10 days', () => {
    expect(late('actual/360').spells.map(({ days }) => days)).toEqual([10]);
  });

  test.each<[DayCount, string]>([
    ['actual/360', '2.71'],
    ['30/360', '2.71'], // the same 10 days within one month
    ['actual/365', '2.67'], // computed: the rule itself divides by 360
  ])('by %s is %s', (dayCount, expected) => {
    expect(printUnits(late(dayCount).amount, 2)).toBe(expected);
  });
});

describe('actual days and 30/360 between coupon dates (published bond examples, read)', () => {
  test.each([
    ['2006-02-28', '2006-08-31', 184, 183],
    ['2006-08-31', '2007-02-28', 181, 178],
    ['2006-08-20', '2007-02-20', 184, 180],
  ])('%s to %s: %i and %i', (from, to, actual, thirty) => {
    expect(countDays(from as LocalDate, to as LocalDate, 'actual/360')).toBe(actual);
    expect(countDays(from as LocalDate, to as LocalDate, 'actual/365')).toBe(actual);
    expect(countDays(from as LocalDate, to as LocalDate, '30/360')).toBe(thirty);
  });
});

/**
 * ISDA's examples of 30/360 (bond basis, 2006 ISDA Definitions section 4.16(f)), read in test suites of public libraries
 * that name ISDA's sheet as their source. Rows with an end on the 31st tell it from 30E/360, those that begin at the end
 * of February from the SIA's rule.
 */
describe('30/360 is the bond basis', () => {
  test.each([
    ['2007-02-20', '2007-08-20', 180],
    ['2008-08-20', '2009-02-20', 180],
    ['2007-02-28', '2007-08-31', 183],
    ['2007-08-31', '2008-02-29', 179],
    ['2008-02-29', '2008-08-31', 182],
    ['2006-01-31', '2006-02-28', 28],
    ['2006-01-30', '2006-02-28', 28],
    ['2006-02-28', '2006-03-03', 5],
    ['2006-02-14', '2006-02-28', 14],
    ['2006-09-30', '2006-10-31', 30],
    ['2006-10-31', '2006-11-28', 28],
    ['2007-08-31', '2008-02-28', 178],
    ['2008-02-28', '2008-08-28', 180],
    ['2008-02-28', '2008-08-30', 182],
    ['2008-02-28', '2008-08-31', 183],
    ['2007-02-26', '2008-02-28', 362],
    ['2007-02-26', '2008-02-29', 363],
    ['2008-02-29', '2009-02-28', 359],
    ['2008-02-28', '2008-03-30', 32],
    ['2008-02-28', '2008-03-31', 33],
  ])('%s to %s: %i', (from, to, days) => {
    expect(countDays(from as LocalDate, to as LocalDate, '30/360')).toBe(days);
  });
});
