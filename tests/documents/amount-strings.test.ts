import { describe, expect, test } from 'vitest';
import { lessThat, signOf, sumOf, turned, unsigned } from '../../src/documents/amount-strings.ts';

describe('amounts as strings', () => {
  test('have a sign unless they are nothing', () => {
    expect(['71.83', '-71.83', '0.00', '-0.00', '0', '-0.01'].map(signOf)).toEqual([1, -1, 0, 0, 0, -1]);
  });

  test('turn round and back', () => {
    expect(['71.83', '-71.83', '0.00', '-0.00'].map(turned)).toEqual(['-71.83', '71.83', '0.00', '0.00']);
    expect(unsigned('-71.83')).toBe('71.83');
  });

  test('add up exactly, past what a binary float holds, with their decimals', () => {
    expect(sumOf(['0.10', '0.20'])).toBe('0.30');
    expect(sumOf(['90071992547409.93', '0.01', '-0.02'])).toBe('90071992547409.92');
    expect(sumOf(['1000', '-9500'])).toBe('-8500');
    expect(sumOf([])).toBe('0');
    expect(lessThat('1.1', '2.95')).toBe('-1.85');
    expect(sumOf(Array.from({ length: 300_000 }, () => '0.01'))).toBe('3000.00');
  });
});
