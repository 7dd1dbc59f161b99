/**
 * How two laboratories that meet in retests differ: who is paired with whom, the counts, and what is left out.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { decimal } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import {
  type Meeting,
  type Pattern,
  pairedT,
  patternsOf,
  signTest,
} from '../../../src/domain/retests/patterns.ts';
import { outsideT } from '../../../src/domain/retests/student-t.ts';

/** "3: Alder 54.0 Bell 52.4": on the third of October. */
function met(line: string, more: Partial<Meeting> = {}): Meeting {
  const [, day = '', one = '', oneValue = '', other = '', otherValue = ''] =
    /^(\d+): (.*?) (-?[\d.]+) (.*?) (-?[\d.]+)$/.exec(line) ?? [];
  return {
    about: 'starch',
    unit: '% of dry matter',
    one,
    other,
    oneValue: decimal(oneValue),
    otherValue: decimal(otherValue),
    on: `2026-10-${day.padStart(2, '0')}` as LocalDate,
    ...more,
  };
}

/** "Alder, Bell: -1.6 0.2 mean -0.7, 1 above 1 below 0 equal". */
function said({ one, other, differences, mean, above, below, equal }: Pattern): string {
  const row = differences.map(({ difference }) => printDecimal(difference)).join(' ');
  return `${one}, ${other}: ${row} mean ${printDecimal(mean)}, ${above} above ${below} below ${equal} equal`;
}

describe('who met whom', () => {
  test('a pair is the same whoever of the two was questioned, in the order of its first meeting', () => {
    const meetings = [
      met('9: Bell 52.0 Alder 53.5'),
      met('3: Alder 54.0 Bell 52.4'),
      met('5: Alder 54.0 Bell 54.00'),
      met('7: Alder 54.0 Bell 54.3'),
    ];
    expect(patternsOf(meetings).map(said)).toEqual([
      'Alder, Bell: -1.6 0 0.3 -1.5 mean -0.7, 1 above 2 below 1 equal',
    ]);
    const [pattern] = patternsOf(meetings);
    expect(pattern?.differences.map(({ of }) => of)).toEqual([
      meetings[1],
      meetings[2],
      meetings[3],
      meetings[0],
    ]);
    expect(printDecimal(pattern?.differences[3]?.oneValue ?? decimal('0'))).toBe('53.5');
  });

  test('blanks around a name count for nothing; case does', () => {
    expect(
      patternsOf([met('1: Alder 1 Bell 2'), met('2:  Alder  1 Bell  3'), met('3: alder 1 Bell 4')]).map(said),
    ).toEqual([
      'Alder, Bell: 1 2 mean 1.5, 2 above 0 below 0 equal',
      'alder, Bell: 3 mean 3, 1 above 0 below 0 equal',
    ]);
  });

  test('nobody meets itself, or somebody without a name', () => {
    expect(patternsOf([met('1: Alder 1 Alder  2'), met('1: Alder 1 Bell 2', { other: '  ' })])).toEqual([]);
  });

  test('measures and units are kept apart, and who met most often comes first', () => {
    const meetings = [
      met('1: Alder 54 Bell 53'),
      met('1: Alder 30 Bell 31', { unit: '% as-fed' }),
      met('2: Alder 60 Bell 61', { about: 'dry-matter', unit: '% as-fed' }),
      met('3: Alder 60 Bell 62', { about: 'dry-matter', unit: '% as-fed' }),
    ];
    expect(
      patternsOf(meetings).map(({ about, unit, differences }) => [about, unit, differences.length]),
    ).toEqual([
      ['dry-matter', '% as-fed', 2],
      ['starch', '% of dry matter', 1],
      ['starch', '% as-fed', 1],
    ]);
  });

  test('differences are exact', () => {
    const [pattern] = patternsOf([met('1: Alder 0.3 Bell 0.1'), met('2: Alder 0.1 Bell 0.3')]);
    expect(pattern?.mean.n).toBe(0n);
    expect(pattern).toMatchObject({ above: 1, below: 1, equal: 0 });
  });
});

describe('the sign test', () => {
  test.each([
    [7, 1, '0.0703125'],
    [1, 7, '0.0703125'],
    [6, 0, '0.03125'],
    [3, 3, '1'],
    [2, 1, '1'],
    [1, 0, '1'],
  ])('%i above and %i below: %s', (above, below, p) => {
    const found = signTest(above, below);
    expect(found && printDecimal(found, 12)).toBe(p);
  });

  test('of ties alone there is none', () => {
    expect(signTest(0, 0)).toBeUndefined();
    expect(patternsOf([met('1: Alder 1 Bell 1'), met('2: Alder 2 Bell 2')])).toMatchObject([
      { equal: 2, signTest: undefined, tTest: undefined },
    ]);
  });

  test('holds for seasons of meetings: 2 (1 + 1000) ÷ 2^1000 is no overflow', () => {
    const found = signTest(999, 1);
    expect(found).toEqual({ n: 2n * 1001n, d: 2n ** 1000n });
  });
});

describe('the paired t test', () => {
  test('has its sign from the mean, and nothing where there is no scatter', () => {
    const up = pairedT(['1', '2', '3'].map(decimal));
    const down = pairedT(['-1', '-2', '-3'].map(decimal));
    expect(up?.t).toBeCloseTo(Math.sqrt(12), 12);
    expect(down).toEqual({ ...up, t: -(up?.t ?? 0) });
    expect(pairedT(['0.4', '0.40'].map(decimal))).toBeUndefined();
    expect(pairedT([decimal('1')])).toBeUndefined();
    expect(pairedT([])).toBeUndefined();
  });

  test('of a mean of 0, t is 0 and chance is all there is', () => {
    expect(pairedT(['-1', '1'].map(decimal))).toEqual({ t: 0, freedom: 1, p: 1 });
  });

  test('takes whole degrees of freedom alone', () => {
    expect(() => outsideT(1, 0)).toThrow(RangeError);
    expect(() => outsideT(1, 1.5)).toThrow(RangeError);
    expect(outsideT(1e9, 40)).toBe(0);
  });
});
