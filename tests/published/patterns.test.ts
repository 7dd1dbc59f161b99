/**
 * The sign test and the paired t test against figures that others published.
 */
import { describe, expect, test } from 'vitest';
import { compare, decimal, subtract } from '../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../src/domain/numbers/printing.ts';
import { pairedT, signTest } from '../../src/domain/retests/patterns.ts';
import { outsideT } from '../../src/domain/retests/student-t.ts';

describe('critical values of Student’s t', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, one-sided, read in a copy (pdfcoffee.com). Its last column
  // (0.001) differs in the third decimal from other tables for some rows, so it is not used.
  const TAILS = [0.1, 0.05, 0.025, 0.01, 0.005];
  test.each([
    [1, 3.078, 6.314, 12.706, 31.821, 63.657],
    [2, 1.886, 2.92, 4.303, 6.965, 9.925],
    [3, 1.638, 2.353, 3.182, 4.541, 5.841],
    [4, 1.533, 2.132, 2.776, 3.747, 4.604],
    [5, 1.476, 2.015, 2.571, 3.365, 4.032],
    [7, 1.415, 1.895, 2.365, 2.998, 3.499],
    // 1.383 on 9 is also what the hay sampling rule of Mississippi uses (Admin. Code 11-8-2, appendix; read).
    [9, 1.383, 1.833, 2.262, 2.821, 3.25],
    [10, 1.372, 1.812, 2.228, 2.764, 3.169],
    [20, 1.325, 1.725, 2.086, 2.528, 2.845],
    [29, 1.311, 1.699, 2.045, 2.462, 2.756],
    [100, 1.29, 1.66, 1.984, 2.364, 2.626],
  ])('on %i degrees of freedom', (freedom, ...values) => {
    values.forEach((value, index) => {
      // The tail belongs to a value that was rounded to three decimals: it lies between those of its two neighbours.
      const tail = TAILS[index] ?? 0;
      expect(outsideT(value + 0.0005, freedom) / 2).toBeLessThanOrEqual(tail + 1e-12);
      expect(outsideT(value - 0.0005, freedom) / 2).toBeGreaterThanOrEqual(tail - 1e-12);
    });
  });

  // A table of more digits (read; scribd.com/document/347558049).
  test.each([
    [1.383029, 9, 0.1],
    [0.702722, 9, 0.25],
    [1.475884, 5, 0.1],
    [0.816497, 2, 0.25],
    [1, 1, 0.25],
    [1.372184, 10, 0.1],
  ])('%f on %i leaves %f above it', (t, freedom, tail) => {
    expect(outsideT(t, freedom) / 2).toBeCloseTo(tail, 6);
  });

  test('a numerical library’s example: Pr(|t(6)| > 2.447) = 0.0500', () => {
    // help.imsl.com, C Numerical Library 8.0, t_cdf (read).
    expect(outsideT(2.447, 6).toFixed(4)).toBe('0.0500');
  });
});

describe('the paired t test', () => {
  test('hours of sleep by two drugs, ten people', () => {
    // Student, Biometrika 1908, as R has it in `sleep`: t.test(extra ~ group, paired = TRUE) prints t = -4.0621 (of the first
    // less the second), df = 9, p-value = 0.002833, mean −1.58 (read: dummies.com, “How to compare paired data with R”).
    const first = '0.7 -1.6 -0.2 -1.2 -0.1 3.4 3.7 0.8 0.0 2.0'.split(' ');
    const second = '1.9 0.8 1.1 0.1 -0.1 4.4 5.5 1.6 4.6 3.4'.split(' ');
    const differences = first.map((hours, index) => subtract(decimal(hours), decimal(second[index] ?? '')));
    const found = pairedT(differences);
    expect(found?.t.toFixed(4)).toBe('-4.0621');
    expect(found?.freedom).toBe(9);
    expect(found?.p.toFixed(6)).toBe('0.002833');
  });
});

describe('the sign test', () => {
  test('7 of 8: 0.0352 on one side', () => {
    // davidmlane.com/hyperstat/B168076.html (read): P(7) + P(8) = 0.03125 + 0.00391 = 0.0352. It doubles 0.03516 to 0.0732,
    // a slip of the pen for 0.0703; the same page has t(7) = −3.21 with p = 0.015.
    const p = signTest(7, 1);
    expect(p && printDecimal({ n: p.n, d: p.d * 2n }, 4)).toBe('0.0352');
    expect(outsideT(-3.21, 7).toFixed(3)).toBe('0.015');
  });

  test('legs of ten deer, 8 longer and 2 shorter: 0.109375', () => {
    // Zar, Biostatistical Analysis; the example read in a copy of an encyclopedia’s page, its p from memory:
    // 2 (0.00098 + 0.00977 + 0.04395).
    const p = signTest(8, 2);
    expect(p && printDecimal(p, 12)).toBe('0.109375');
  });

  // Triola, Elementary Statistics, table A-7, “Critical Values for the Sign Test” (read: wgdesigngroup.com/Pearson): the largest
  // number of the less frequent sign at which p is at most 0.01, 0.02, 0.05 and 0.10 on two sides; * where none is.
  test.each(
    `1 * * * *, 4 * * * *, 5 * * * 0, 6 * * 0 0, 7 * 0 0 0, 8 0 0 0 1, 9 0 0 1 1, 10 0 0 1 1, 11 0 1 1 2, 12 1 1 2 2,
     13 1 1 2 3, 14 1 2 2 3, 15 2 2 3 3, 16 2 2 3 4, 17 2 3 4 4, 18 3 3 4 5, 19 3 4 4 5, 20 3 4 5 5, 21 4 4 5 6,
     22 4 5 5 6, 23 4 5 6 7, 24 5 5 6 7, 25 5 6 7 7`
      .split(',')
      .map((row) => row.trim()),
  )('critical values: %s', (row) => {
    const [count = '', ...expected] = row.split(' ');
    const found = ['0.01', '0.02', '0.05', '0.10'].map((level) => {
      const within = [...Array(Number(count) + 1).keys()].filter((fewer) => {
        const p = signTest(Number(count) - fewer, fewer);
        return fewer * 2 <= Number(count) && p && compare(p, decimal(level)) <= 0;
      });
      return String(within.at(-1) ?? '*');
    });
    expect(found).toEqual(expected);
  });

  // By hand, in whole numbers: 2 Σ C(n, i) ÷ 2ⁿ.
  test.each([
    [5, 0, '0.0625'],
    [9, 1, '0.021484375'],
    [10, 2, '0.03857421875'],
    [15, 5, '0.041389465332'],
  ])('%i against %i: %s', (above, below, expected) => {
    const p = signTest(above, below);
    expect(p && printDecimal(p, 12)).toBe(expected);
  });
});
