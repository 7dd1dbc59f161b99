/**
 * The chart of lots: dearer is higher, more starch further right, and every letter can be read.
 */
import { describe, expect, test } from 'vitest';
import { FRAME, RADIUS, spotsPicture } from '../../src/app/lots/compare/spots-picture.ts';

const spot = (letter: string, starch: number, price: number) => ({ letter, starch, price });

describe('lots on a chart', () => {
  test('stand by their figures', () => {
    const { spots, across, up } = spotsPicture([
      spot('A', 55.6, 167.9),
      spot('B', 71.3, 183.85),
      spot('C', 60.9, 165.47),
    ]);
    const [a, b, c] = spots;
    expect([a, b, c].map((one) => one?.letter)).toEqual(['A', 'B', 'C']);
    expect((a?.x ?? 0) < (c?.x ?? 0) && (c?.x ?? 0) < (b?.x ?? 0)).toBe(true);
    expect((b?.y ?? 0) < (a?.y ?? 0) && (a?.y ?? 0) < (c?.y ?? 0)).toBe(true);
    // The marks are on the same scale as the spots: 60 lies between A and C.
    const sixty = across.find(({ label }) => label === '60')?.at ?? 0;
    expect(sixty > (a?.x ?? 0) && sixty < (c?.x ?? 0)).toBe(true);
    expect(up.length).toBeGreaterThan(1);
  });

  test.each([
    ['one alone', [spot('A', 55, 160)]],
    ['five alike', ['A', 'B', 'C', 'D', 'E'].map((letter) => spot(letter, 55, 160))],
    ['two that nearly touch, far right', [spot('A', 20, 100), spot('B', 80, 200), spot('C', 80, 200.1)]],
    ['a price below nothing', [spot('A', 55, -20), spot('B', 60, 20)]],
  ])('%s: within the frame and apart', (_, figures) => {
    const { spots } = spotsPicture(figures);
    for (const [index, { x, y }] of spots.entries()) {
      expect(x).toBeGreaterThanOrEqual(FRAME.left - RADIUS);
      expect(x).toBeLessThanOrEqual(FRAME.width - RADIUS);
      expect(y).toBeGreaterThanOrEqual(RADIUS);
      expect(y).toBeLessThanOrEqual(FRAME.height - RADIUS);
      for (const other of spots.slice(0, index)) {
        expect(Math.hypot(other.x - x, other.y - y)).toBeGreaterThanOrEqual(2 * RADIUS);
      }
    }
  });
});
