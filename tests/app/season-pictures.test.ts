/**
 * The bars of a season's weeks, and the stalks of a test by day.
 */
import { describe, expect, test } from 'vitest';
import { spreadPicture } from '../../src/app/agreements/[id]/season/spread-picture.ts';
import { FRAME, weekBars } from '../../src/app/agreements/[id]/season/week-bars.ts';

const week = (nth: number, amount: string) => ({ nth, amount });

describe('bars', () => {
  test('are as high as their amounts, each in the place of its week', () => {
    const bars = weekBars([week(1, '100.00'), week(3, '50.00')], []);
    const [first, third] = bars?.now ?? [];
    expect(first?.height).toBeCloseTo(2 * (third?.height ?? 0), 0);
    expect((first?.y ?? 0) + (first?.height ?? 0)).toBeCloseTo(FRAME.height - FRAME.bottom, 1);
    // Week 2 has its place, though nothing came.
    const slot = (FRAME.width - FRAME.left - FRAME.right) / 3;
    expect((third?.x ?? 0) - (first?.x ?? 0)).toBeCloseTo(2 * slot, 0);
    expect(bars?.across.map(({ nth }) => nth)).toEqual([1, 2, 3]);
  });

  test('of the season before stand to the right of this one’s', () => {
    const bars = weekBars([week(1, '100.00')], [week(1, '80.00'), week(2, '10.00')]);
    const [now] = bars?.now ?? [];
    expect(bars?.before[0]?.x).toBeCloseTo((now?.x ?? 0) + (now?.width ?? 0), 1);
    expect(bars?.before).toHaveLength(2);
  });

  test('hang from the line where a week came to less than nothing', () => {
    const bars = weekBars([week(1, '100.00'), week(2, '-20.00')], []);
    expect(bars?.now[1]?.y).toBe(bars?.zero);
  });

  test('stay in the picture where a date was mistyped by years', () => {
    const bars = weekBars([week(1, '10.00'), week(2_000, '20.00')], []);
    expect(bars?.across.map(({ nth }) => nth)).toEqual([1, 2_000]);
    for (const { x, width } of bars?.now ?? []) {
      expect(x).toBeGreaterThanOrEqual(FRAME.left);
      expect(x + width).toBeLessThanOrEqual(FRAME.width - FRAME.right);
    }
  });

  test('are none where nothing has a value', () => {
    expect(weekBars([week(1, '0.00')], [])).toBeUndefined();
    expect(weekBars([], [])).toBeUndefined();
  });
});

test('a test by day runs from its least to its greatest, higher figures higher up', () => {
  const day = (of: string, least: string, median: string, greatest: string, mean: string) => ({
    ...{ of, loads: 1, results: 1, least, median, greatest, mean },
    plain: { least, median, greatest, mean },
  });
  const picture = spreadPicture([
    day('2026-09-07', '70', '71', '74', '71.5'),
    day('2026-09-08', '72', '72', '72', '72'),
  ]);
  const [first, second] = picture?.stalks ?? [];
  const ys = [first?.greatest, second?.mean, first?.mean, first?.median, first?.least].map((y) => y ?? 0);
  expect(ys.toSorted((a, b) => a - b)).toEqual(ys);
  expect(picture?.across.map(({ day }) => day)).toEqual(['2026-09-07', '2026-09-08']);
  expect(spreadPicture([day('2026-09-07', '70', '70', '70', '70')])).toBeUndefined();
});
