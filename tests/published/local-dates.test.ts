/**
 * The local date of a delivery around the clock changes. Clocks are an hour ahead from the second Sunday of March,
 * 2 a.m., to the first Sunday of November, 2 a.m. (15 U.S.C. 260a(a), 2011 edition, read); Arizona keeps standard
 * time (its exemption: memory). Dates of 2026 and instants are computed.
 */
import { describe, expect, test } from 'vitest';
import { parseInstant, zoneCalendar } from '../../src/domain/dates/instant.ts';
import type { Term } from '../oracle/season.ts';
import { prepareProduct } from '../oracle/settle-by-product.ts';
import { smallSeason } from '../oracle/small-season.ts';

const FLAT: Term[] = [{ term: 'flat', label: 'Price', rate: '80', per: 'load' }];

function deliveredOn(delivered_at: string, timeZone: string): string {
  const season = smallSeason(FLAT, { agreement: { timeZone } });
  return prepareProduct(season).settle({ ...season.loads[0], delivered_at }).load.deliveredOn;
}

function wallClock(text: string, timeZone: string): string {
  const read = parseInstant(text);
  return 'wrong' in read ? read.wrong : zoneCalendar(timeZone).wallClockAt(read.instant);
}

describe('the wall clock changes at 2 a.m.', () => {
  test.each([
    ['America/Chicago', '2026-03-08T07:59:00Z', '2026-03-08 01:59'],
    ['America/Chicago', '2026-03-08T08:00:00Z', '2026-03-08 03:00'],
    ['America/Chicago', '2026-11-01T06:59:00Z', '2026-11-01 01:59'],
    ['America/Chicago', '2026-11-01T07:00:00Z', '2026-11-01 01:00'],
    ['America/Boise', '2026-03-08T09:00:00Z', '2026-03-08 03:00'],
    ['America/Phoenix', '2026-03-08T09:00:00Z', '2026-03-08 02:00'],
    ['America/Phoenix', '2026-11-01T09:00:00Z', '2026-11-01 02:00'],
  ])('%s at %s shows %s', (timeZone, instant, expected) => {
    expect(wallClock(instant, timeZone)).toBe(expected);
  });
});

describe('so midnight moves by an hour, and with it the day of delivery', () => {
  test.each([
    ['2026-11-01T05:59:59Z', 'America/Boise', '2026-10-31'],
    ['2026-11-01T06:00:00Z', 'America/Boise', '2026-11-01'],
    ['2026-11-02T06:59:59Z', 'America/Boise', '2026-11-01'],
    ['2026-11-02T07:00:00Z', 'America/Boise', '2026-11-02'],
    ['2026-03-08T06:59:59Z', 'America/Boise', '2026-03-07'],
    ['2026-03-09T05:59:59Z', 'America/Boise', '2026-03-08'],
    ['2026-03-09T06:00:00Z', 'America/Boise', '2026-03-09'],
    ['2026-11-01T06:59:59Z', 'America/Phoenix', '2026-10-31'],
    ['2026-11-01T07:00:00Z', 'America/Phoenix', '2026-11-01'],
    ['2026-10-31T23:30:00-06:00', 'America/Boise', '2026-10-31'],
    ['2026-11-01T23:30:00-06:00', 'America/Boise', '2026-11-01'],
    ['2026-11-02T00:30:00-06:00', 'America/Boise', '2026-11-01'],
  ])('%s in %s is of %s', (delivered_at, timeZone, expected) => {
    expect(deliveredOn(delivered_at, timeZone)).toBe(expected);
  });
});
