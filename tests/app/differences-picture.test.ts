/**
 * The picture of differences by date.
 */
import { describe, expect, test } from 'vitest';
import { differencesPicture, FRAME } from '../../src/app/retests/patterns/differences-picture.ts';
import type { LocalDate } from '../../src/domain/dates/local-date.ts';

const drawn = (line: string) =>
  line.split(' ').map((word, index) => {
    const [day = '', difference = ''] = word.split(':');
    return { key: String(index), on: `2026-10-${day}` as LocalDate, difference };
  });

describe('differences by date', () => {
  test('stand above and below zero, in order of their days, all within the frame', () => {
    const picture = differencesPicture(drawn('05:-1.6 08:0.4 12:0 20:-0.2'), '-0.35');
    const spots = picture?.spots ?? [];
    expect(spots.map(({ y }) => Math.sign((picture?.zero ?? 0) - y))).toEqual([-1, 1, 0, -1]);
    expect(spots.map(({ x }) => x)).toEqual(spots.map(({ x }) => x).toSorted((a, b) => a - b));
    expect(picture?.mean).toBeGreaterThan(picture?.zero ?? 0);
    for (const { x, y } of spots) {
      expect(x).toBeGreaterThan(FRAME.left);
      expect(x).toBeLessThan(FRAME.width - FRAME.right);
      expect(y).toBeGreaterThanOrEqual(FRAME.top);
      expect(y).toBeLessThanOrEqual(FRAME.height - FRAME.bottom);
    }
    expect(picture?.up.map(({ figure }) => figure)).toEqual(['-1.5', '-1', '-0.5', '0', '0.5']);
    expect(picture?.across.map(({ day }) => day)).toEqual(['2026-10-05', '2026-10-20']);
  });

  test('of one day do not hide one another, and the day is named once', () => {
    const picture = differencesPicture(drawn('05:1 05:1 05:1'), '1');
    expect(new Set(picture?.spots.map(({ x }) => x)).size).toBe(3);
    expect(picture?.across).toHaveLength(1);
  });

  test('that are all zero have their line in the middle', () => {
    const picture = differencesPicture(drawn('05:0 06:0'), '0');
    expect(picture?.zero).toBeCloseTo((FRAME.top + FRAME.height - FRAME.bottom) / 2, 0);
  });

  test('are not drawn where there is but one', () => {
    expect(differencesPicture(drawn('05:1'), '1')).toBeUndefined();
  });
});
