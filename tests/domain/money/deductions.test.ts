/**
 * Deductions of one load, and which loads share an invoice.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { type DeductionRule, deduction } from '../../../src/domain/money/deductions.ts';
import { type InvoicedBy, invoicePeriod } from '../../../src/domain/money/invoice-periods.ts';
import { parseMinorUnits } from '../../../src/domain/money/minor-units.ts';
import { decimal } from '../../../src/domain/numbers/exact.ts';

const MONEY = { currency: 'USD', decimals: 2, rounding: 'half-up' } as const;
// The worked example of the agreement's format: 47,120 lb, of which 27,895.04 lb are dry, at 1,986.85.
const LOAD = { netPounds: decimal('47120'), dryPounds: decimal('27895.04'), total: 198685n };

describe('a deduction', () => {
  const rows: readonly [DeductionRule, bigint, string][] = [
    [
      { label: 'D', rate: '2.10', per: 'short-ton', weight: 'as-fed' },
      4948n,
      '47120 lb = 23.56 short-ton × 2.10 = 49.48',
    ],
    [
      { label: 'D', rate: '2.10', per: 'short-ton', weight: 'dry-matter' },
      2929n,
      '27895.04 lb of dry matter = 13.94752 short-ton × 2.10 = 29.29',
    ],
    [
      { label: 'D', rate: '0.04', per: 'bushel', weight: 'as-fed', poundsPerBushel: '56' },
      3366n,
      '47120 lb ÷ 56 × 0.04 = 33.66',
    ],
    [{ label: 'D', rate: '0.001', per: 'lb', weight: 'as-fed' }, 4712n, '47120 lb × 0.001 = 47.12'],
    [{ label: 'D', rate: '7.5', per: 'load' }, 750n, '1 load × 7.5 = 7.50'],
    [{ label: 'D', rate: '0.5', per: 'percent' }, 993n, '1986.85 × 0.5 % = 9.93'],
  ];
  test.each(rows)('%o is %s', (rule, amount, how) => {
    expect(deduction(rule, LOAD, MONEY)).toMatchObject({ amount, how, payee: null });
  });

  test('in percent takes nothing off a load that comes to less than nothing', () => {
    const rule: DeductionRule = { label: 'D', rate: '5', per: 'percent', payee: 'Corn board' };
    expect(deduction(rule, { ...LOAD, total: -500n }, MONEY)).toMatchObject({
      amount: 0n,
      payee: 'Corn board',
    });
  });

  test('by dry matter is never guessed', () => {
    const rule: DeductionRule = { label: 'D', rate: '2', per: 'lb', weight: 'dry-matter' };
    expect(() => deduction(rule, { ...LOAD, dryPounds: undefined }, MONEY)).toThrow(/dry matter/);
  });
});

describe('the period of an invoice', () => {
  const rows: readonly [InvoicedBy, string, string, string | null][] = [
    ['load', '2026-09-14', 'L', '2026-09-13'],
    ['day', '2026-09-14', '2026-09-14', '2026-09-14'],
    // 14 September 2026 is a Monday.
    ['week', '2026-09-14', '2026-09-14', '2026-09-20'],
    ['week', '2026-09-20', '2026-09-14', '2026-09-20'],
    ['week', '2027-01-01', '2026-12-28', '2027-01-03'],
    ['month', '2026-02-03', '2026-02', '2026-02-28'],
    ['month', '2026-12-31', '2026-12', '2026-12-31'],
    ['season', '2026-09-14', 'season', null],
  ];
  test.each(rows)('%s of %s is %s until %s', (by, deliveredOn, key, last) => {
    expect(invoicePeriod(by, { deliveredOn: deliveredOn as LocalDate, loadId: 'L' })).toEqual({ key, last });
  });
});

test.each([
  ['1986.85', 198685n],
  ['-0.05', -5n],
  ['12', 1200n],
  ['1.50000', 150n],
  ['1.005', undefined],
  ['1e3', undefined],
  ['', undefined],
])('%j is %s minor units', (text, units) => {
  expect(parseMinorUnits(text, MONEY)).toBe(units);
});
