/**
 * An allowance is one more flat line: worked by hand on the format's own example, 47,120 lb at 59.2 % dry matter.
 */
import { expect, test } from 'vitest';
import { decimal } from '../../../src/domain/numbers/exact.ts';
import { type Allowance, allowanceLine, readAllowanceRow } from '../../../src/domain/settlement/allowance.ts';
import { Row } from '../../../src/domain/tables/row.ts';

const MEASURED = {
  load: {
    ticket: 'T1',
    deliveredAt: 0,
    deliveredOn: '2026-09-14' as never,
    unit: 'lb',
    gross: decimal('78220'),
    tare: decimal('31100'),
    net: decimal('47120'),
    netPounds: decimal('47120'),
  },
  result: undefined,
  figures: { 'dry-matter': decimal('59.2') },
  dryPounds: decimal('27895.04'),
} as const;
const MONEY = { currency: 'USD', decimals: 2, rounding: 'half-up' } as const;

test.each([
  // 23.56 short tons × 3.50; 13.94752 short tons × 3.50 = 48.81632; one load.
  [{ takenOff: '3.50', per: 'short-ton', weight: 'as-fed' }, -8246n],
  [{ takenOff: '3.50', per: 'short-ton', weight: 'dry-matter' }, -4882n],
  [{ takenOff: '75', per: 'load', weight: null }, -7500n],
] as readonly (readonly [Allowance, bigint])[])('%j', (allowance, amount) => {
  const line = allowanceLine(allowance, { measured: MEASURED, money: MONEY });
  expect(line.amount).toBe(amount);
  expect(line.label).toBe('Allowance agreed for this load');
  expect(line.how()).toContain(`−${allowance.takenOff}`);
});

test('a form is held to its rules', () => {
  const read = (cells: Record<string, string>) => {
    const row = new Row((column) => cells[column] ?? '');
    return readAllowanceRow(row) ?? row.problems.map(({ column }) => column);
  };
  expect(read({ taken_off: '03.50', per: 'short-ton', weight: 'as-fed' })).toEqual({
    takenOff: '3.50',
    per: 'short-ton',
    weight: 'as-fed',
  });
  expect(read({ taken_off: '75', per: 'load' })).toEqual({ takenOff: '75', per: 'load', weight: null });
  expect(read({ taken_off: '0', per: 'mile' })).toEqual(['taken_off', 'per']);
  expect(read({ taken_off: '-1', per: 'short-ton' })).toEqual(['taken_off', 'weight']);
  expect(read({ taken_off: '1', per: 'load', weight: 'as-fed' })).toEqual(['weight']);
});
