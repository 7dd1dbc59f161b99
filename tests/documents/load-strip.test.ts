import { describe, expect, test } from 'vitest';
import { hatchMarks } from '../../src/documents/strip/hatch-marks.ts';
import { type LoadComposition, loadStrip } from '../../src/documents/strip/load-strip.ts';
import { STRIP_LOOK } from '../../src/documents/strip/strip-look.ts';

const whole: LoadComposition = {
  weight: '47,120 lb',
  length: 0.94,
  water: { share: 0.408, percent: '40.8' },
  starch: { share: 0.32, percent: '32.0' },
  fibre: { share: 0.186, percent: '18.6' },
  restPercent: '8.6',
};

function widths(load: LoadComposition): number[] {
  return loadStrip(load).segments.map(({ from, to }) => to - from);
}

describe('the load strip', () => {
  test('has water, starch, fibre and the rest in this order, without a gap, from 0 to 1', () => {
    const { segments, length } = loadStrip(whole);
    expect(length).toBe(0.94);
    expect(segments.map(({ part }) => part)).toEqual(['water', 'starch', 'fibre', 'rest']);
    expect(segments[0]?.from).toBe(0);
    expect(segments.at(-1)?.to).toBe(1);
    for (const [index, segment] of segments.slice(1).entries())
      expect(segment.from).toBe(segments[index]?.to);
    expect(segments[1]?.to).toBeCloseTo(0.728, 12);
  });

  test.each([
    whole,
    { ...whole, starch: null },
    { ...whole, fibre: null, starch: null },
    { ...whole, water: null, starch: null, fibre: null, restPercent: null },
  ])('fills itself whatever was tested', (load) => {
    expect(widths(load).reduce((sum, width) => sum + width, 0)).toBeCloseTo(1, 12);
    expect(Math.min(...widths(load))).toBeGreaterThanOrEqual(0);
  });

  test('says itself in words', () => {
    expect(loadStrip(whole).text).toBe(
      '47,120 lb: 40.8 % water, 32.0 % starch, 18.6 % fibre (NDF), 8.6 % the rest',
    );
  });

  test('leaves what was not tested in the rest, and says so', () => {
    expect(loadStrip({ ...whole, starch: null, restPercent: '40.6' }).text).toBe(
      '47,120 lb: 40.8 % water, 18.6 % fibre (NDF), 40.6 % the rest, starch not tested',
    );
    expect(loadStrip({ ...whole, water: null, starch: null, fibre: null, restPercent: null }).text).toBe(
      '47,120 lb: not tested',
    );
  });

  test('refuses shares that are no shares', () => {
    expect(() => loadStrip({ ...whole, water: { share: 0.7, percent: '70' } })).toThrow(RangeError);
    expect(() => loadStrip({ ...whole, starch: { share: Number.NaN, percent: '?' } })).toThrow(RangeError);
    expect(() => loadStrip({ ...whole, length: 1.2 })).toThrow(RangeError);
  });

  test('gives each part a fill and a hatch of its own', () => {
    const looks = Object.values(STRIP_LOOK);
    expect(new Set(looks.map(({ fill }) => fill)).size).toBe(4);
    expect(new Set(looks.map(({ hatch }) => hatch)).size).toBe(4);
    for (const { hatch } of looks) {
      const { lines, dots } = hatchMarks(hatch, { width: 40, height: 15, spacing: 3 });
      expect(lines.length + dots.length).toBeGreaterThan(2);
    }
  });
});
