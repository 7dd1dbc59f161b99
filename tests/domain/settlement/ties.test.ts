/**
 * A tie at half of the smallest coin goes the agreed way, on both signs, in currencies of 0, 2, 3 and 4 decimals; and
 * whoever multiplies the printed quantity by the printed rate gets the amount.
 */
import { describe, expect, test } from 'vitest';
import type { OracleSeason } from '../../oracle/season.ts';
import { prepareProduct } from '../../oracle/settle-by-product.ts';

interface Printed {
  readonly lines: readonly { readonly amount: string; readonly rate: string; readonly quantity: string }[];
  readonly total: string;
}

function settleFlat(flat: {
  currency: string;
  rounding: string;
  rate: string;
  per: string;
  net: string;
}): Printed {
  const { currency, rounding, rate, per, net } = flat;
  const season = {
    agreement: {
      format: 'huskledger-agreement/1',
      id: 'A-1',
      seller: 'Quillback Acres',
      buyer: 'Tarn Hollow Dairy',
      feed: 'corn-silage',
      currency,
      rounding,
      timeZone: 'America/Boise',
      references: {},
      price: [{ term: 'flat', label: 'Hauling', rate, per, weight: 'as-fed' }],
    },
    loads: [],
    samples: [],
    prices: [],
    elections: [],
    choices: [],
  };
  const { settle, print } = prepareProduct(season as unknown as OracleSeason);
  const load = { ticket: 'T1', delivered_at: '2026-09-14T12:00:00-06:00', gross: net, tare: '0', unit: 'lb' };
  return print(settle(load)) as unknown as Printed;
}

describe('a tie at half of the smallest coin', () => {
  test.each`
    currency | rate         | per            | net        | halfUp       | halfEven
    ${'USD'} | ${'0.125'}   | ${'lb'}        | ${'1'}     | ${'0.13'}    | ${'0.12'}
    ${'USD'} | ${'-0.125'}  | ${'lb'}        | ${'1'}     | ${'-0.13'}   | ${'-0.12'}
    ${'USD'} | ${'0.135'}   | ${'lb'}        | ${'1'}     | ${'0.14'}    | ${'0.14'}
    ${'USD'} | ${'-0.135'}  | ${'lb'}        | ${'1'}     | ${'-0.14'}   | ${'-0.14'}
    ${'USD'} | ${'-4.25'}   | ${'short-ton'} | ${'47400'} | ${'-100.73'} | ${'-100.72'}
    ${'USD'} | ${'0.005'}   | ${'lb'}        | ${'1'}     | ${'0.01'}    | ${'0.00'}
    ${'USD'} | ${'-0.005'}  | ${'lb'}        | ${'1'}     | ${'-0.01'}   | ${'0.00'}
    ${'USD'} | ${'-0.004'}  | ${'lb'}        | ${'1'}     | ${'0.00'}    | ${'0.00'}
    ${'JPY'} | ${'2.5'}     | ${'lb'}        | ${'1'}     | ${'3'}       | ${'2'}
    ${'JPY'} | ${'-3.5'}    | ${'lb'}        | ${'1'}     | ${'-4'}      | ${'-4'}
    ${'KWD'} | ${'0.0025'}  | ${'lb'}        | ${'1'}     | ${'0.003'}   | ${'0.002'}
    ${'CLF'} | ${'0.00025'} | ${'lb'}        | ${'1'}     | ${'0.0003'}  | ${'0.0002'}
  `(
    '$net lb × $rate $currency per $per is $halfUp half-up, $halfEven half-even',
    ({ halfUp, halfEven, ...flat }) => {
      for (const [rounding, expected] of [
        ['half-up', halfUp],
        ['half-even', halfEven],
      ]) {
        const { lines, total } = settleFlat({ ...flat, rounding });
        expect(lines[0]?.amount).toBe(expected);
        expect(total).toBe(expected);
      }
    },
  );

  test('a rate with more than six decimals is printed with as many as the amount needs', () => {
    const { lines } = settleFlat({
      currency: 'USD',
      rounding: 'half-up',
      rate: '0.08558749',
      per: 'lb',
      net: '1000000',
    });
    expect(lines[0]).toMatchObject({ quantity: '1000000', rate: '0.08558749', amount: '85587.49' });
  });
});
