/**
 * Offsets of wall-clock times. When clocks change: IANA time zone database, as of 2026: Boise goes back on 2026-11-01 at
 * 02:00 and forward on 2027-03-14 at 02:00; Berlin back on 2026-10-25 at 03:00; Lord Howe moves by half an hour.
 */
import { expect, test } from 'vitest';
import { isWallClock, offsetsOf, wallClockNow } from '../../src/app/times/wall-clock.ts';

test.each([
  ['2026-09-14T21:40', 'America/Boise', ['-06:00']],
  ['2026-11-01T00:59', 'America/Boise', ['-06:00']],
  ['2026-11-01T01:00', 'America/Boise', ['-06:00', '-07:00']],
  ['2026-11-01T01:59', 'America/Boise', ['-06:00', '-07:00']],
  ['2026-11-01T02:00', 'America/Boise', ['-07:00']],
  ['2027-03-14T02:30', 'America/Boise', []],
  ['2026-10-25T02:30', 'Europe/Berlin', ['+02:00', '+01:00']],
  ['2026-04-05T01:45', 'Australia/Lord_Howe', ['+11:00', '+10:30']],
  ['2026-07-01T12:00', 'Asia/Kolkata', ['+05:30']],
])('%s in %s', (wallClock, timeZone, offsets) => {
  expect(offsetsOf(wallClock, timeZone)).toEqual(offsets);
  for (const offset of offsets) {
    expect(wallClockNow(Date.parse(`${wallClock}:00${offset}`), timeZone)).toBe(wallClock);
  }
});

test('what is no time on a clock', () => {
  expect(isWallClock('2026-09-14T21:40')).toBe(true);
  for (const text of ['', '2026-09-14', '2026-09-14 21:40', '2026-13-14T21:40', '2026-09-14T25:00']) {
    expect(isWallClock(text), text).toBe(false);
  }
});
