/**
 * Times on tickets, and the local dates that they fall on.
 */
import { describe, expect, test } from 'vitest';
import { isTimeZone, parseInstant, zoneCalendar } from '../../../src/domain/dates/instant.ts';
import { daysBetween, parseLocalDate } from '../../../src/domain/dates/local-date.ts';

function localDate(text: string, timeZone: string): string {
  const parsed = parseInstant(text);
  return 'wrong' in parsed ? parsed.wrong : zoneCalendar(timeZone).dateAt(parsed.instant);
}

describe('the local date of a time', () => {
  test.each([
    ['2026-09-14T21:40:00-06:00', 'America/Boise', '2026-09-14'],
    ['2026-09-15T05:59:59Z', 'America/Boise', '2026-09-14'],
    ['2026-09-15T06:00:00Z', 'America/Boise', '2026-09-15'],
    ['2026-09-15T06:00Z', 'America/Boise', '2026-09-15'],
    ['2026-09-15T06:00:00.999Z', 'America/Boise', '2026-09-15'],
    ['2026-09-15T00:10:00-0600', 'America/Boise', '2026-09-15'],
    ['2026-09-15T00:10:00-06', 'America/Boise', '2026-09-15'],
    // The clock goes back at two on 1 November: the ticket's own offset decides.
    ['2026-11-02T00:12:00-06:00', 'America/Boise', '2026-11-01'],
    ['2026-11-02T00:12:00-07:00', 'America/Boise', '2026-11-02'],
    ['2026-10-26T00:14:00+02:00', 'Europe/Berlin', '2026-10-25'],
    ['2026-03-29T01:59:59+01:00', 'Europe/Berlin', '2026-03-29'],
    ['2026-04-05T02:30:00+12:00', 'Pacific/Auckland', '2026-04-05'],
    ['2026-01-01T00:00:00+14:00', 'Pacific/Kiritimati', '2026-01-01'],
    ['2026-06-30T23:45:00+05:45', 'Asia/Kathmandu', '2026-06-30'],
    ['2028-02-29T12:00:00Z', 'UTC', '2028-02-29'],
  ])('%s in %s is %s', (text, zone, expected) => {
    expect(localDate(text, zone)).toBe(expected);
  });

  test('the hour that comes twice is told apart by its offset', () => {
    const before = parseInstant('2026-11-01T01:30:00-06:00');
    const after = parseInstant('2026-11-01T01:30:00-07:00');
    if ('wrong' in before || 'wrong' in after) throw new Error('Both are times');
    expect(after.instant - before.instant).toBe(3_600_000);
    const calendar = zoneCalendar('America/Boise');
    expect([calendar.wallClockAt(before.instant), calendar.wallClockAt(after.instant)]).toEqual([
      '2026-11-01 01:30',
      '2026-11-01 01:30',
    ]);
  });

  test.each([
    ['2026-09-14T21:40:00', 'the offset is missing'],
    ['2026-09-14 21:40', 'the offset is missing'],
    ['2026-09-14', 'the offset is missing'],
    ['9/14/2026 21:40', 'a date and time with its offset'],
    ['', 'a date and time with its offset'],
    ['2026-02-29T12:00:00Z', '2026-02-29 is not'],
    ['2026-13-01T12:00:00Z', '2026-13-01 is not'],
    ['2026-09-14T24:00:00Z', 'a time of day'],
    ['2026-09-14T12:60:00Z', 'a time of day'],
    ['2026-09-14T12:00:00+15:00', 'at most 14 hours'],
  ])('%s is refused: %s', (text, wrong) => {
    const parsed = parseInstant(text);
    expect('wrong' in parsed ? parsed.wrong : 'accepted').toContain(wrong);
  });
});

describe('dates and zones', () => {
  test.each([
    ['2026-02-28', true],
    ['2026-02-29', false],
    ['2028-02-29', true],
    ['2100-02-29', false],
    ['2000-02-29', true],
    ['0026-09-14', false],
    ['9999-12-31', false],
    ['2026-04-31', false],
    ['2026-00-10', false],
    ['2026-9-4', false],
    ['02026-09-14', false],
  ])('%s on the calendar: %s', (text, possible) => {
    expect(parseLocalDate(text) !== undefined).toBe(possible);
  });

  test('days are counted across months and leap days', () => {
    const [from, to] = [parseLocalDate('2028-02-28'), parseLocalDate('2028-03-01')];
    if (!from || !to) throw new Error('Both are dates');
    expect(daysBetween(from, to)).toBe(2);
  });

  test.each([
    ['America/Boise', true],
    ['UTC', true],
    ['America/Boisee', false],
    ['+02:00', false],
    ['', false],
  ])('time zone %s: %s', (name, known) => {
    expect(isTimeZone(name)).toBe(known);
  });
});
