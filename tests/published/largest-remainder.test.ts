/**
 * Sharing out by largest remainders (Hamilton's method): the seats of 1790 by population, and a hundred in three.
 */
import { describe, expect, test } from 'vitest';
import { printUnits } from '../../src/domain/numbers/printing.ts';
import { shareOut } from '../../src/domain/numbers/share-out.ts';

describe('60 seats by the census of 1790 (Hamilton’s method, read and recomputed)', () => {
  const states: readonly [state: string, people: bigint, seats: bigint][] = [
    ['VA', 630560n, 11n],
    ['MA', 475327n, 8n],
    ['PA', 432879n, 7n],
    ['NC', 353523n, 6n],
    ['NY', 331589n, 6n],
    ['MD', 278514n, 5n],
    ['CT', 236841n, 4n],
    ['SC', 206236n, 3n],
    ['NJ', 179570n, 3n],
    ['NH', 141822n, 2n],
    ['VT', 85533n, 1n],
    ['GA', 70835n, 1n],
    ['KY', 68705n, 1n],
    ['RI', 68446n, 1n],
    ['DE', 55540n, 1n],
  ];
  const shares = shareOut(
    60n,
    states.map(([, people]) => people),
  );
  test.each(states.map((row, index) => [...row, index] as const))('%s, %s: %s', (_, __, seats, index) => {
    expect(shares[index]).toBe(seats);
  });

  test('whatever the order of the states, each gets the same, and all 60 are given', () => {
    const turned = states.toReversed();
    const found = shareOut(
      60n,
      turned.map(([, people]) => people),
    );
    expect(found).toEqual(turned.map(([, , seats]) => seats));
    expect(found.reduce((sum, seats) => sum + seats, 0n)).toBe(60n);
  });
});

describe('100.00 in three (read and recomputed); the others computed', () => {
  const rows: [units: bigint, parts: number, expected: string[]][] = [
    [10000n, 3, ['33.34', '33.33', '33.33']],
    [-10000n, 3, ['-33.34', '-33.33', '-33.33']],
    [20000n, 3, ['66.67', '66.67', '66.66']],
    [1n, 3, ['0.01', '0.00', '0.00']],
  ];
  test.each(rows)('%s hundredths in %s: %j', (units, parts, expected) => {
    const shares = shareOut(units, Array<bigint>(parts).fill(1n));
    expect(shares.map((share) => printUnits(share, 2))).toEqual(expected);
  });
});
