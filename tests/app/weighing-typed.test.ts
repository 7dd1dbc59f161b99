import { describe, expect, test } from 'vitest';
import type { DeskAgreement } from '../../src/app/scale/desk.ts';
import { EMPTY, followingTicket, plainWeight, rowOf, whatIsMissing } from '../../src/app/scale/typed.ts';

describe('the ticket a phone offers next', () => {
  test('is the next of the series before anything is weighed', () => {
    expect(followingTicket('A-0012', { taken: [] })).toBe('A-0012');
  });

  test('follows the one just weighed, with as many digits', () => {
    expect(followingTicket('A-0012', { last: 'A-0099', taken: [] })).toBe('A-0100');
    expect(followingTicket('7', { last: '999', taken: [] })).toBe('1000');
  });

  test('passes over those that wait on the phone', () => {
    expect(followingTicket('12', { taken: ['12', '13', '15'] })).toBe('14');
    expect(followingTicket('12', { last: '12', taken: ['12', '13'] })).toBe('14');
  });

  test('is left to be typed after a ticket that ends in no digit', () => {
    expect(followingTicket('12', { last: '12-b', taken: [''] })).toBe('');
  });
});

describe('what a phone asks for before it saves', () => {
  const agreement: DeskAgreement = {
    ...{ id: 'a', number: 'A-1', partner: 'Lanternfield Dairy', unit: 'lb', timeZone: 'America/Boise' },
    ...{
      nextTicket: null,
      distance: null,
      testsNeeded: false,
      sampling: 'per-load' as const,
      trucks: [],
      open: [],
    },
  };
  const now = Date.parse('2026-09-14T21:40:00-06:00');
  const typed = { ...EMPTY, ticket: '7', gross: '78,220', tare: '31,100' };
  const missing = (changes: object) => whatIsMissing({ ...typed, ...changes }, { agreement, taken: [], now });

  test('takes weights with commas, and sends them without', () => {
    expect(missing({})).toBeUndefined();
    expect(plainWeight('78,220', 'lb')).toBe('78220');
    expect(rowOf(typed, { agreement, now })).toMatchObject({ gross: '78220', tare: '31100' });
  });

  test('takes no time that is still to come, and lets clocks differ a little', () => {
    expect(missing({ time: '2026-09-14T21:44' })).toBeUndefined();
    expect(missing({ time: '2026-09-14T21:46' })).toMatch(/still to come/);
    expect(missing({ time: '2026-09-14T08:00' })).toBeUndefined();
  });

  test('wants weights in digits', () => {
    expect(missing({ gross: '7822O' })).toMatch(/gross weight in digits/);
    expect(missing({ tare: '' })).toMatch(/tare in digits/);
    expect(missing({ tare: '', isTareLater: true })).toBeUndefined();
  });
});
