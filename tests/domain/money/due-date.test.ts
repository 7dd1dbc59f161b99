/**
 * When an invoice is due, by each way to agree it. Dates of the calendar are worked out by hand.
 */
import { describe, expect, test } from 'vitest';
import { type LocalDate, parseLocalDate } from '../../../src/domain/dates/local-date.ts';
import { type DueTerms, dayOfNextMonth, daysAfter, dueOn } from '../../../src/domain/money/due-date.ts';

function day(text: string): LocalDate {
  const date = parseLocalDate(text);
  if (!date) throw new Error(`${text} is on no calendar`);
  return date;
}

/** The last load came on the 1st and settled on the 5th; the invoice is of the 8th. */
const OCTOBER = {
  issuedOn: day('2026-10-08'),
  lastDeliveredOn: day('2026-10-01'),
  lastSettledOn: day('2026-10-05'),
};

describe('an invoice of 2026-10-08 is due', () => {
  test.each<[DueTerms, string]>([
    [{ netDays: '14', from: 'delivery' }, '2026-10-15'],
    [{ netDays: '14', from: 'settlement' }, '2026-10-19'],
    [{ netDays: '14', from: 'invoice' }, '2026-10-22'],
    [{ netDays: '30', from: 'invoice' }, '2026-11-07'],
    [{ netDays: '90', from: 'invoice' }, '2027-01-06'],
    [{ dayOfMonth: '15' }, '2026-11-15'],
    [{ dayOfMonth: '1' }, '2026-11-01'],
    [{ dayOfMonth: '31' }, '2026-11-30'],
    [{ deferredTo: '2027-01-05' }, '2027-01-05'],
    [{}, '2026-10-08'],
  ])('by %j on %s', (terms, expected) => {
    expect(dueOn(terms, OCTOBER)).toBe(expected);
  });
});

describe('never before it is issued', () => {
  test.each<[DueTerms]>([
    [{ netDays: '0', from: 'delivery' }],
    [{ netDays: '6', from: 'delivery' }],
    [{ netDays: '0', from: 'settlement' }],
    [{ netDays: '0', from: 'invoice' }],
    [{ deferredTo: '2026-10-07' }],
  ])('%j', (terms) => {
    expect(dueOn(terms, OCTOBER)).toBe('2026-10-08');
  });

  test('but no day later than need be', () => {
    expect(dueOn({ netDays: '7', from: 'delivery' }, OCTOBER)).toBe('2026-10-08');
    expect(dueOn({ netDays: '8', from: 'delivery' }, OCTOBER)).toBe('2026-10-09');
  });
});

test('an invoice without loads is counted from its own date', () => {
  const { issuedOn } = OCTOBER;
  expect(dueOn({ netDays: '14', from: 'delivery' }, { issuedOn })).toBe('2026-10-22');
  expect(dueOn({ netDays: '14', from: 'settlement' }, { issuedOn })).toBe('2026-10-22');
});

describe('a day of the next month', () => {
  test.each([
    ['2026-01-01', 31, '2026-02-28'],
    ['2026-01-31', 31, '2026-02-28'],
    ['2026-01-31', 28, '2026-02-28'],
    ['2028-01-20', 31, '2028-02-29'],
    ['2028-01-20', 30, '2028-02-29'],
    ['2100-01-20', 29, '2100-02-28'],
    ['2026-03-31', 31, '2026-04-30'],
    ['2026-03-31', 30, '2026-04-30'],
    ['2026-02-28', 31, '2026-03-31'],
    ['2026-07-31', 31, '2026-08-31'],
    ['2026-11-30', 31, '2026-12-31'],
    ['2026-12-01', 1, '2027-01-01'],
    ['2026-12-31', 31, '2027-01-31'],
    ['2026-09-30', 9, '2026-10-09'],
  ])('after %s, day %i, is %s', (from, dayOfMonth, expected) => {
    expect(dayOfNextMonth(day(from), dayOfMonth)).toBe(expected);
    expect(dueOn({ dayOfMonth: String(dayOfMonth) }, { issuedOn: day(from) })).toBe(expected);
  });
});

test('days go over the ends of months, years and Februaries', () => {
  expect(daysAfter(day('2026-12-31'), 1)).toBe('2027-01-01');
  expect(daysAfter(day('2028-02-28'), 1)).toBe('2028-02-29');
  expect(daysAfter(day('2026-02-28'), 1)).toBe('2026-03-01');
  expect(daysAfter(day('2026-03-07'), 2)).toBe('2026-03-09');
  expect(daysAfter(day('2026-10-08'), 0)).toBe('2026-10-08');
});
