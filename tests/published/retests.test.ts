/**
 * Retest methods against the boundary rows of their published procedures.
 */
import { describe, expect, test } from 'vitest';
import { decimal } from '../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../src/domain/numbers/printing.ts';
import { decidedFigure, rule } from '../../src/domain/retests/decide.ts';
import type { RetestFigure, Tester } from '../../src/domain/retests/figures.ts';
import { criticalDifferenceSquared } from '../../src/domain/retests/methods/iso-5725.ts';
import type { LaboratoryMethod } from '../../src/domain/retests/ruling.ts';

function figure(from: Tester, text: string): RetestFigure {
  return { from, value: decimal(text), decimals: text.split('.')[1]?.length ?? 0 };
}

/** "seller 68.9 buyer 71.0 …" as the figures that came after the first. */
function ruled(method: LaboratoryMethod, later: string, first = '70.0'): string {
  const words = later.split(' ').filter((word) => word !== '');
  const figures = words.flatMap((word, index) =>
    index % 2 === 0 ? [figure(word as Tester, words[index + 1] ?? '')] : [],
  );
  const ruling = rule(method, { first: figure('laboratory', first), later: figures });
  if (ruling.kind === 'needs') return ruling.tests.map(({ by, results }) => `${by} ${results}`).join(', ');
  return `${printDecimal(ruling.value)} ${ruling.because}`;
}

describe('ASTM D3244, section 8.3 (read), R = 2.0', () => {
  const method = { method: 'astm-d3244', reproducibility: '2.0', tie: 'median' } as const;
  test.each([
    // Equality passes.
    ['seller 69.0 buyer 71.0', '70 mean-of-two'],
    ['seller 68.9 buyer 71.0', 'seller 1, buyer 1'],
    ['seller 68.9 buyer 71.0 seller 69.4 buyer 71.2', '70.3 mean-of-two'],
    ['seller 68.9 buyer 71.0 seller 69.0 buyer 71.2', 'referee 1'],
    // Range 2.2, within 1.2 R.
    ['seller 68.9 buyer 71.0 seller 69.0 buyer 71.2 referee 70.2', '70.133333 mean-of-three'],
    // Range 2.6.
    ['seller 68.9 buyer 71.0 seller 68.6 buyer 71.2 referee 70.4', '70.8 mean-of-nearer-pair'],
    ['', 'seller 1, buyer 1'],
    ['buyer 71.0', 'seller 1'],
  ])('%s: %s', (later, expected) => {
    expect(ruled(method, later)).toBe(expected);
  });

  test.each([
    ['median', '70 tie'],
    ['mean', '70 tie'],
    ['first-stands', '69.5 tie'],
    ['referee-stands', '70 tie'],
  ] as const)('equal distance goes by the agreement’s own rule: %s', (tie, expected) => {
    const later = 'seller 68.9 buyer 71.0 seller 68.0 buyer 72.0 referee 70.0';
    expect(ruled({ ...method, tie }, later, '69.5')).toBe(expected);
  });

  test('is rounded to the decimals of the most precise figure that went in', () => {
    const later = ['seller 68.9', 'buyer 71.0', 'seller 69.0', 'buyer 71.2', 'referee 70.25'].map((text) => {
      const [from = '', value = ''] = text.split(' ');
      return figure(from as Tester, value);
    });
    const ruling = rule(method, { first: figure('laboratory', '70.0'), later });
    // (69.0 + 71.2 + 70.25) ÷ 3 = 70.15
    expect(ruling.kind === 'decided' && printDecimal(decidedFigure(ruling, 'half-up'))).toBe('70.15');
  });
});

describe('ISO 5725-6 (r and R read; critical ranges and flow from memory), s_r = 0.5', () => {
  const dear = { method: 'iso-5725', repeatability: '1.4', test: 'dear' } as const;
  const cheap = { ...dear, test: 'cheap' } as const;
  test.each([
    [dear, '', 'laboratory 1'],
    [dear, 'laboratory 71.4', '70.7 mean-of-two'],
    [dear, 'laboratory 71.5', 'laboratory 1'],
    [dear, 'laboratory 71.5 laboratory 70.6', '70.7 mean-of-three'],
    [dear, 'laboratory 72.0 laboratory 70.5', '70.5 median'],
    [cheap, 'laboratory 71.6', 'laboratory 2'],
    [cheap, 'laboratory 71.6 laboratory 70.4 laboratory 71.0', '70.75 mean-of-four'],
    [cheap, 'laboratory 72.0 laboratory 70.4 laboratory 71.0', '70.7 median'],
  ] as const)('%o with %s: %s', (method, later, expected) => {
    expect(ruled(method, later)).toBe(expected);
  });

  test('the critical difference of two laboratories with two results each, r = 1.4 and R = 2.8, is 2.6192', () => {
    const limit = { repeatability: decimal('1.4'), reproducibility: decimal('2.8'), counts: [2, 2] as const };
    expect(printDecimal(criticalDifferenceSquared(limit))).toBe('6.86');
    expect(Math.sqrt(6.86).toFixed(4)).toBe('2.6192');
  });

  const between = { ...dear, reproducibility: '2.8' } as const;
  test.each([
    ['laboratory 70.0', 'referee 2'],
    // 2.619 apart passes, 2.620 does not.
    ['laboratory 70.0 referee 72.619 referee 72.619', '71.3095 mean-of-two'],
    ['laboratory 70.0 referee 72.62 referee 72.62', '72.62 referee-moved-it'],
  ])('between two laboratories, %s: %s', (later, expected) => {
    expect(ruled(between, later)).toBe(expected);
  });
});
