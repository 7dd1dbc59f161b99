import { describe, expect, test } from 'vitest';
import {
  type RawPayment,
  readOwnPayment,
  withSigns,
} from '../../../../src/domain/matching/payments/own-payment.ts';
import { readMoney } from '../../../../src/domain/tables/cell-texts.ts';

const read = (texts: Record<string, string>, side: 'seller' | 'buyer' = 'buyer') =>
  readOwnPayment({ date: '2026-09-03', ...texts }, { id: '2', side, decimals: 2 });

describe('a payment of own books', () => {
  test.each([
    ['buyer', 'paid', '500.00'],
    ['buyer', 'Received', '-500.00'],
    ['seller', 'received', '500.00'],
    ['seller', 'DR', '-500.00'],
  ] as const)('of a %s that says %s is %s', (side, direction, amount) => {
    expect(read({ amount: '500', direction }, side)).toMatchObject({ row: { amount }, isSaid: true });
    expect(read({ amount: '-500', direction }, side)).toMatchObject({ row: { amount } });
  });

  test('has its method by the names that books use', () => {
    expect(read({ amount: '5', method: 'Wire' })).toMatchObject({ row: { method: 'transfer' } });
    expect(read({ amount: '5', method: 'barter' })).toMatchObject({ row: { method: null } });
  });

  test.each([
    [{ date: '', amount: '5' }, 'has no day of payment'],
    [{}, 'has no amount'],
    [{ amount: 'five' }, 'has an amount that is no number: "five"'],
    [{ amount: '5.005' }, 'has an amount with more than 2 decimals: 5.005'],
    [{ amount: '0.00' }, 'has an amount of 0'],
    [{ amount: '5', direction: 'up' }, 'has the direction "up"; write paid or received'],
  ])('that holds %o is told why not', (texts, wrong) => expect(read(texts)).toEqual({ wrong }));
});

test('a list that mostly writes a minus means the usual direction by it, whatever its order', () => {
  const rows = ['-500', '-20', '30'].map((amount) => read({ amount }) as RawPayment);
  const amounts = (of: readonly RawPayment[]) => withSigns(of).rows.map(({ amount }) => amount);
  expect(amounts(rows)).toEqual(['500.00', '20.00', '-30.00']);
  expect(amounts(rows.toReversed())).toEqual(['-30.00', '20.00', '500.00']);
  expect(amounts(rows.slice(1))).toEqual(['-20.00', '30.00']);
});

test.each([
  ['$1,250.00', '.', '1250.00'],
  ['-$1,250.00', '.', '-1250.00'],
  ['$-1,250.00', '.', '-1250.00'],
  ['($504.25)', '.', '-504.25'],
  ['504.25-', '.', '-504.25'],
  ['USD 12.50', '.', '12.50'],
  ['CA$12.50', '.', '12.50'],
  ['1.250,00 €', ',', '1250.00'],
  ['12', '.', '12'],
] as const)('the money %s is %s', (cell, mark, text) => expect(readMoney(cell, mark)).toEqual({ text }));
