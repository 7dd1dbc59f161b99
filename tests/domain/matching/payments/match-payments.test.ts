import { describe, expect, test } from 'vitest';
import { matchPayments } from '../../../../src/domain/matching/payments/match-payments.ts';
import {
  type KnownAmount,
  type PaymentListRow,
  referenceKey,
} from '../../../../src/domain/matching/payments/payment-list-row.ts';
import { paymentOutcomeInWords } from '../../../../src/domain/words/payment-matching-words.ts';
import { matched, payments, shortly } from './payment-lists.ts';

describe('a row ends as', () => {
  const cases: [string, string[], string[], string[]][] = [
    ['agreeing, by reference', ['09-03 500.00 01043'], ['09-03 500.00 #1043'], ['m1=r1']],
    ['agreeing, without any', ['09-03 500.00'], ['09-03 500'], ['m1=r1']],
    ['agreeing, a reference in one list', ['09-03 500.00'], ['09-03 500.00 77'], ['m1=r1']],
    ['another amount, by its reference', ['09-03 900.00 7'], ['09-03 560.00 7'], ['m1=r1 amount 340.00']],
    ['another amount, nearly', ['09-03 1000.00'], ['09-04 1025.50'], ['m1=r1 amount -25.50 date -1']],
    ['another day', ['09-08 500.00 7'], ['09-03 500.00 7'], ['m1=r1 date 5']],
    ['another day, long after, by its reference', ['11-08 500.00 7'], ['09-03 500.00 7'], ['m1=r1 date 66']],
    ['alone, too long after', ['09-20 500.00'], ['09-03 500.00'], ['only m1', 'only r1']],
    ['alone, too large', ['09-03 500.00'], ['09-03 831.77'], ['only m1', 'only r1']],
    ['only in mine', ['09-03 500.00', '09-20 1.23'], ['09-03 500.00'], ['m1=r1', 'only m2']],
    ['only in the record', [], ['09-03 500.00'], ['only r1']],
    ['twice in mine', ['09-03 500.00 7', '09-05 500.00 7'], ['09-03 500.00 7'], ['m1=r1', 'twice m2 of m1']],
    [
      'twice, without a reference',
      ['09-03 500.00'],
      ['09-03 500.00', '09-03 500.00'],
      ['m1=r1', 'twice r2 of r1'],
    ],
    [
      'twice, in neither list elsewhere',
      ['09-03 500.00 7', '09-03 500.00 7'],
      [],
      ['only m1', 'twice m2 of m1'],
    ],
    ['money that goes back', ['09-03 -50.00 7'], ['09-03 -50.00 7'], ['m1=r1']],
  ];
  test.each(cases)('%s', (_, mine, record, expected) => expect(matched(mine, record)).toEqual(expected));

  test('the least cost of all, where taking the nearest first would leave two alone', () => {
    // m1 is nearest to r1, but m2 can be none but r1.
    const mine = ['09-11 500.00', '09-01 500.00'];
    const record = ['09-11 500.00', '09-20 500.00'];
    expect(matched(mine, record)).toEqual(['m1=r2 date -9', 'm2=r1 date -10']);
  });

  test('references that both lists number otherwise say nothing against a pair', () => {
    const mine = ['09-01 100.00 1', '09-08 230.00 2', '09-15 345.00 3'];
    const record = ['09-01 230.00 9', '09-08 230.00 3', '09-15 345.00 1', '09-01 100.00 2'];
    expect(matched(mine, record).slice(0, 3)).toEqual(['m1=r4', 'm2=r2', 'm3=r3']);
  });

  test('undecided where there are too many', () => {
    const lists = {
      mine: payments('m', ['09-03 5.00']),
      record: payments('r', ['09-03 5.00', '09-04 5.00']),
    };
    expect(shortly(matchPayments(lists, { decimals: 2, bounds: { pairs: 1, steps: 1 } }))).toEqual([
      'only m1 undecided',
      'only r1 undecided',
      'only r2 undecided',
    ]);
  });
});

describe('a cause', () => {
  const invoice: KnownAmount = { because: 'invoice-within', name: 'Invoice 4', amount: '313.07' };
  const fee: KnownAmount = { because: 'fee-within', name: 'Fee 5', amount: '18.11' };
  const discount: KnownAmount = {
    because: 'discount-taken',
    name: 'the discount on Invoice 3',
    amount: '21.77',
  };
  const knowing = (mine: string[], record: string[]) => {
    const known = (row: PaymentListRow) => ({ ...row, known: [invoice, fee, discount] });
    return shortly(
      matchPayments({ mine: payments('m', mine), record: payments('r', record).map(known) }, { decimals: 2 }),
    );
  };
  const cases: [string, string[], string[], string[]][] = [
    ['digits', ['09-03 547.00'], ['09-03 574.00'], ['m1=r1 amount -27.00 digits-transposed:either']],
    ['sign', ['09-03 -574.12'], ['09-05 574.12'], ['m1=r1 amount -1148.24 sign-turned:either date -2']],
    ['discount', ['09-03 1066.73'], ['09-03 1088.50'], ['m1=r1 amount -21.77 discount-taken:mine']],
    [
      'discount in the record',
      ['09-03 1088.50'],
      ['09-03 1066.73'],
      ['m1=r1 amount 21.77 discount-taken:record'],
    ],
    ['fee', ['09-03 518.11'], ['09-03 500.00'], ['m1=r1 amount 18.11 fee-within:mine']],
    ['invoice', ['09-03 500.00'], ['09-03 813.07'], ['m1=r1 amount -313.07 invoice-within:record']],
    ['point', ['09-03 5.47'], ['09-03 547.00'], ['m1=r1 amount -541.53 point-moved:either']],
    [
      'sum',
      ['09-03 1511.11'],
      ['09-03 1000.00', '09-05 511.11'],
      ['m1=r1 amount 511.11 two-as-one:mine', 'only r2 within m1'],
    ],
    [
      'sum by its reference',
      ['09-03 600.00 7', '09-04 911.11 8'],
      ['09-03 1511.11 7'],
      ['m1=r1 amount -911.11 two-as-one:record', 'only m2 within r1'],
    ],
  ];
  test.each(cases)('%s', (_, mine, record, expected) => expect(knowing(mine, record)).toEqual(expected));

  const none: [string, string[], string[], string[]][] = [
    ['discount, a cent off', ['09-03 1066.72'], ['09-03 1088.50'], ['m1=r1 amount -21.78']],
    ['fee, a cent off', ['09-03 518.12'], ['09-03 500.00'], ['m1=r1 amount 18.12']],
    ['invoice, a cent off', ['09-03 500.00 7'], ['09-03 813.08 7'], ['m1=r1 amount -313.08']],
    ['sign, a cent off', ['09-03 -574.12'], ['09-03 574.13'], ['only m1', 'only r1']],
    ['digits, two pairs of them', ['09-03 4588.00 7'], ['09-03 8454.00 7'], ['m1=r1 amount -3866.00']],
    [
      'sum, a cent off',
      ['09-03 1511.12'],
      ['09-03 1000.00', '09-05 511.11'],
      ['only m1', 'only r1', 'only r2'],
    ],
    [
      'sum, too long after',
      ['09-03 1511.11'],
      ['09-03 1000.00', '10-05 511.11'],
      ['only m1', 'only r1', 'only r2'],
    ],
    [
      'sum, in two ways',
      ['09-03 1511.11'],
      ['09-03 1000.00', '09-05 511.11', '09-03 700.00', '09-04 811.11'],
      ['only m1', 'only r1', 'only r2', 'only r3', 'only r4'],
    ],
    [
      'sum, of two that could hold it',
      ['09-03 711.11 1', '09-04 911.11 2', '09-05 1.00 3', '09-05 2.00 4'],
      ['09-03 300.00 1', '09-04 500.00 2', '09-05 411.11'],
      ['m1=r1 amount 411.11', 'm2=r2 amount 411.11', 'only m3', 'only m4', 'only r3'],
    ],
  ];
  test.each(none)('is not named: %s', (_, mine, record, expected) =>
    expect(knowing(mine, record)).toEqual(expected),
  );

  test('of a day is day and month exchanged, or none', () => {
    expect(matched(['03-09 500.00'], ['09-03 500.00'])).toEqual([
      'm1=r1 date -178 day-and-month-exchanged:either',
    ]);
  });
});

test.each([
  ['Check #01043', '1043'],
  ['ck 1043', '1043'],
  ['CHK. no. 10-43', '1043'],
  ['wire', 'WIRE'],
  ['  ', null],
  [null, null],
])('the reference %s is %s', (text, key) => expect(referenceKey(text)).toBe(key));

test('sentences say by how much and why', () => {
  const names = {
    mine: 'your list',
    record: 'the record',
    load: (side: string, id: string) => `${id} of ${side}`,
    currency: 'USD',
    side: 'buyer' as const,
  };
  const said = matchPayments(
    { mine: payments('m', ['09-03 1511.11']), record: payments('r', ['09-03 1000.00', '09-05 511.11']) },
    { decimals: 2 },
  ).flatMap((outcome) => paymentOutcomeInWords(outcome, names));
  expect(said).toEqual([
    'Your list has 1511.11 USD, the record 1000.00 USD: 511.11 USD more. Most likely your list has two payments as one sum, this one and r2 of record.',
    'This payment is only in the record. Most likely it is within the sum of m1 of mine.',
  ]);
});

test('each office says its own row as it sees it, where the other list is the other office’s', () => {
  const lists = { mine: payments('m', ['09-03 700.00']), record: payments('r', ['09-03 -700.00']) };
  const names = { mine: 'your list', record: 'Fernway Dairy’s list', load: () => '', currency: 'USD' };
  const said = (sides: object) =>
    matchPayments(lists, { decimals: 2 }).flatMap((outcome) =>
      paymentOutcomeInWords(outcome, { ...names, side: 'seller', ...sides }),
    );
  const rest =
    '1400.00 USD apart. Most likely in one of the two lists paid and received have changed places.';
  expect(said({ otherSide: 'buyer' })).toEqual([
    `Your list has 700.00 USD received, Fernway Dairy’s list 700.00 USD received back: ${rest}`,
  ]);
  expect(said({})).toEqual([
    `Your list has 700.00 USD received, Fernway Dairy’s list 700.00 USD paid back: ${rest}`,
  ]);
});
