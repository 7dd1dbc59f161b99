/**
 * What holds of each day count, whatever the dates.
 */
import { describe, expect, test } from 'vitest';
import { dateOfDayNumber, dayNumber, type LocalDate } from '../../../src/domain/dates/local-date.ts';
import { countDays, DAY_COUNTS, type DayCount, yearDays } from '../../../src/domain/money/day-count.ts';
import { dayOfNextMonth, daysAfter } from '../../../src/domain/money/due-date.ts';
import { chanceFrom } from '../../oracle/random.ts';

const FIRST = dayNumber('2020-01-01' as LocalDate);
const DAYS = 20 * 365;

/** Dates of about twenty years, in order. */
function someDates(seed: number, count: number): LocalDate[] {
  const chance = chanceFrom(seed);
  return Array.from({ length: count }, () => dateOfDayNumber(FIRST + chance.integer(0, DAYS))).sort();
}

const seeds = Array.from({ length: 500 }, (_, index) => index + 1);
const ACTUAL: readonly DayCount[] = ['actual/365', 'actual/360'];

describe('actual days', () => {
  test('of two spells add up to those of both', () => {
    for (const seed of seeds) {
      const [from, turn, to] = someDates(seed, 3) as [LocalDate, LocalDate, LocalDate];
      for (const by of ACTUAL) {
        const parts = countDays(from, turn, by) + countDays(turn, to, by);
        expect(parts, `${from}, ${turn}, ${to}`).toBe(countDays(from, to, by));
      }
    }
  });

  test('are as many as lead from one date to the other', () => {
    for (const seed of seeds) {
      const [from, to] = someDates(seed, 2) as [LocalDate, LocalDate];
      expect(daysAfter(from, countDays(from, to, 'actual/365'))).toBe(to);
    }
  });
});

describe('30/360', () => {
  test('gives each whole month 30 days', () => {
    let tried = 0;
    for (const seed of seeds) {
      const [from = '' as LocalDate] = someDates(seed, 1);
      const dayOfMonth = Number(from.slice(8));
      let to = from;
      for (let months = 1; months <= 30; months++) {
        to = dayOfNextMonth(to, dayOfMonth);
        // February cannot have the day: it counts as the day it is.
        if (dayOfMonth > 28 && to.slice(5, 7) === '02') continue;
        tried++;
        expect(countDays(from, to, '30/360'), `${from} to ${to}`).toBe(30 * months);
      }
    }
    expect(tried).toBeGreaterThan(14_000);
  });

  test('never goes back as the end moves on, and lies within a few days of the actual ones', () => {
    for (const seed of seeds.slice(0, 60)) {
      const [from = '' as LocalDate] = someDates(seed, 1);
      let before = 0;
      for (let days = 0; days <= 400; days++) {
        const counted = countDays(from, daysAfter(from, days), '30/360');
        expect(counted).toBeGreaterThanOrEqual(before);
        expect(Math.abs(counted - days)).toBeLessThanOrEqual(8);
        before = counted;
      }
      expect(before).toBeGreaterThan(380);
    }
  });

  test('of two spells can be a day less than of both: each is counted by its own ends', () => {
    const count = (from: string, to: string) => countDays(from as LocalDate, to as LocalDate, '30/360');
    expect(count('2026-01-15', '2026-03-31')).toBe(76);
    expect(count('2026-01-15', '2026-01-30') + count('2026-01-30', '2026-03-31')).toBe(75);
  });
});

test('no day lies between a date and itself, and a year is as long as its name says', () => {
  for (const by of DAY_COUNTS) {
    expect(countDays('2026-01-31' as LocalDate, '2026-01-31' as LocalDate, by)).toBe(0);
    expect(String(yearDays(by))).toBe(by.split('/')[1]);
  }
});
