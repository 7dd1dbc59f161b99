/**
 * The price stair's geometry.
 */
import { expect, test } from 'vitest';
import { stairOf } from '../../src/app/stair/stair-steps.ts';

test('steps follow one another from nothing to the total', () => {
  const { steps, total, zero } = stairOf(['80.00', '20.00', '-25.00']);
  expect(zero).toBe(0);
  expect(steps).toEqual([
    { from: 0, to: 0.8, isDown: false },
    { from: 0.8, to: 1, isDown: false },
    { from: 0.75, to: 1, isDown: true },
  ]);
  expect(total).toEqual({ from: 0, to: 0.75, isDown: false });
});

test('charges that pass what the feed is worth go below nothing', () => {
  const { steps, total, zero } = stairOf(['30.00', '-40.00']);
  expect(zero).toBe(0.25);
  expect(steps[1]).toEqual({ from: 0, to: 1, isDown: true });
  expect(total).toEqual({ from: 0, to: 0.25, isDown: true });
});

test('a settlement of nothing has a picture too', () => {
  expect(stairOf(['0.00']).steps).toEqual([{ from: 0, to: 0, isDown: false }]);
});
