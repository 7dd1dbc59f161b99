import { describe, expect, test } from 'vitest';
import type { ListRow } from '../../../src/domain/matching/list-row.ts';
import { allSaid, day, LOAD, pairOf } from './one-pair.ts';

const UNSEEN = { gross: null, tare: null };

describe('weights', () => {
  test.each<[string, Partial<ListRow>, string]>([
    ['nothing', {}, ''],
    ['zeros that say nothing', { net: '47120.00' }, ''],
    [
      'kilograms as pounds',
      { net: '21373', ...UNSEEN },
      'other-unit by mine {"units":{"isIn":"kg","takenFor":"lb"}}',
    ],
    [
      'pounds as kilograms',
      { unit: 'kg', ...UNSEEN },
      // Or the record's figure was in kilograms: the figures alone cannot tell.
      'other-unit by mine {"units":{"isIn":"lb","takenFor":"kg"}} or record {"units":{"isIn":"kg","takenFor":"lb"}}',
    ],
    [
      'tons as pounds',
      { net: '23.56', ...UNSEEN },
      'other-unit by mine {"units":{"isIn":"short-ton","takenFor":"lb"}}',
    ],
    ['gross for net', { net: '78220' }, 'gross-for-net by mine'],
    [
      'the tare of another truck, shown',
      { tare: '33660', net: '44560' },
      'tare-of-another-truck by mine {"load":{"in":"record","id":"r2"}}',
    ],
    [
      'the tare of another truck, not shown',
      { net: '44560', ...UNSEEN },
      'implied-tare-of-another-truck by mine {"load":{"in":"record","id":"r2"}}',
    ],
    [
      'the point moved',
      { net: '4712.0' },
      'point-moved by either {"part":"net"}; digit-doubled by record {"part":"net"}; digit-dropped by mine {"part":"net"}',
    ],
    ['digits transposed', { net: '41720' }, 'digits-transposed by either {"part":"net"}'],
    [
      'digits transposed in the gross, net worked out with it',
      { gross: '72820', net: '41720' },
      'digits-transposed by either {"part":"gross"}',
    ],
    ['a digit mistyped', { net: '47720' }, 'digit-mistyped by either {"part":"net"}'],
    [
      'a digit doubled',
      { net: '471120' },
      'digit-doubled by mine {"part":"net"}; digit-dropped by record {"part":"net"}',
    ],
    ['a digit dropped', { net: '4120' }, 'digit-dropped by mine {"part":"net"}'],
    ['nothing that was tried', { net: '46333' }, 'unknown'],
  ])('%s', (_, change, cause) => {
    expect(allSaid(change)).toEqual(cause === '' ? [] : [`weight: ${cause}`]);
  });

  test('a list in another unit agrees to its own rounding, and no further', () => {
    expect(pairOf({ unit: 'kg', net: '21373', ...UNSEEN })).toMatchObject({
      differences: [],
      isToRounding: true,
    });
    expect(pairOf({ unit: 'short-ton', net: '23.56', ...UNSEEN })).toMatchObject({
      differences: [],
      isToRounding: false,
    });
    expect(pairOf({ unit: 'kg', net: '21374', ...UNSEEN }).differences).toMatchObject([
      { aspect: 'weight', by: '1.603919…' },
    ]);
  });

  test('the same unit with fewer decimals is a rounded figure', () => {
    const tons = { unit: 'short-ton' as const, ...UNSEEN };
    expect(allSaid({ ...tons, net: '23.6' }, { ...tons, net: '23.56' })).toEqual(['weight: rounded by mine']);
  });
});

describe('amounts', () => {
  test.each<[string, Partial<ListRow>, string]>([
    ['a cent a line', { amount: '1986.81' }, 'rounded by either; digit-mistyped by either'],
    ['more than a cent a line', { amount: '1986.80' }, 'digit-mistyped by either'],
    ['hauling left out', { amount: '2086.98' }, 'charge-left-out by mine {"name":"hauling"}'],
    ['hauling twice', { amount: '1886.72' }, 'charge-twice by mine {"name":"hauling"}'],
    ['all charges left out', { amount: '2100.98' }, 'charge-left-out by mine {"name":"hauling, testing"}'],
    ['the quote of another day', { amount: '1934.11' }, 'quote-of-another-day by mine {"day":"2026-09-12"}'],
    ['as fed for dry', { amount: '1938.26' }, 'as-fed-for-dry by mine {"name":"fibre above range"}'],
    ['another test', { amount: '1951.40' }, 'other-test by mine {"name":"the field laboratory"}'],
    ['the point moved', { amount: '198685' }, 'point-moved by either'],
    ['digits transposed', { amount: '1968.85' }, 'digits-transposed by either'],
    ['digits transposed, apart', { amount: '1688.95' }, 'unknown'],
    ['a digit dropped', { amount: '986.85' }, 'digit-dropped by mine'],
    ['nothing that was tried', { amount: '1777.77' }, 'unknown'],
  ])('%s', (_, change, cause) => {
    expect(allSaid(change)).toEqual([`amount: ${cause}`]);
  });

  test('what it is a difference of, and by how much', () => {
    const kindOf = (amount: string) => pairOf({ amount }).differences;
    expect(kindOf('1986.83')).toMatchObject([{ by: '-0.02', kind: 'rounding' }]);
    expect(kindOf('2013.22')).toMatchObject([{ by: '26.37', kind: 'price' }]);
    expect(kindOf('1886.72')).toMatchObject([{ by: '-100.13', kind: 'charge' }]);
    expect(kindOf('1938.26')).toMatchObject([{ by: '-48.59', kind: 'test' }]);
    expect(kindOf('1968.85')).toMatchObject([{ by: '-18.00', kind: 'slip' }]);
    expect(kindOf('1777.77')).toMatchObject([{ by: '-209.08', kind: 'unknown' }]);
  });

  test('an amount that follows from another weight or test says so', () => {
    // 1986.85 × 41720 ÷ 47120 = 1759.15…, and 1986.85 × 52.9 ÷ 59.2 = 1775.41….
    expect(allSaid({ net: '41720', amount: '1759.15' })).toEqual([
      'weight: digits-transposed by either {"part":"net"}',
      'amount: follows-weight by either',
    ]);
    expect(allSaid({ dryMatter: '52.9', amount: '1775.41' })).toEqual([
      'amount: follows-test by either',
      'test: digits-transposed by either',
    ]);
  });

  test('an amount that a list does not have differs from nothing', () => {
    expect(allSaid({ amount: null, dryMatter: null })).toEqual([]);
  });
});

describe('days, tests and tickets', () => {
  test.each<[string, Partial<ListRow>, string]>([
    [
      'a day later',
      { deliveredOn: day('2026-09-15') },
      'date: day-shifted by either; digit-mistyped by either',
    ],
    ['a digit of the day', { deliveredOn: day('2026-09-24') }, 'date: digit-mistyped by either'],
    ['no reason', { deliveredOn: day('2026-10-07') }, 'date: unknown'],
    ['moisture', { dryMatter: '40.8' }, 'test: moisture-for-dry-matter by either'],
    ['a rounded test', { dryMatter: '59' }, 'test: rounded by mine; digit-mistyped by either'],
    ['another ticket', { ticket: '1074' }, 'ticket: digits-transposed by either'],
    ['a ticket of another digit', { ticket: '1847' }, 'ticket: digit-mistyped by either'],
    ['a ticket with a digit less', { ticket: '147' }, 'ticket: digit-dropped by mine'],
    ['a ticket that is not like it', { ticket: '9999' }, 'ticket: unknown'],
  ])('%s', (_, change, cause) => {
    expect(allSaid(change)).toEqual([cause]);
  });

  test('day and month exchanged', () => {
    const record = { deliveredOn: day('2026-09-10') };
    expect(allSaid({ deliveredOn: day('2026-10-09') }, record)).toEqual([
      'date: day-and-month-exchanged by either',
    ]);
  });

  test('a ticket written otherwise is the same ticket', () => {
    for (const ticket of ['001047', '1-047', ' 1 O47', '1o47', '#1047']) {
      expect(pairOf({ ticket })).toMatchObject({ by: 'ticket', differences: [] });
    }
    expect(pairOf({ ticket: null })).toMatchObject({ by: 'likeness', differences: [] });
  });
});

test('a pair that differs in all respects has them all', () => {
  const change = { deliveredOn: day('2026-09-15'), net: '41720', amount: '1968.85', dryMatter: '52.9' };
  expect(pairOf(change).differences.map(({ aspect }) => aspect)).toEqual([
    'weight',
    'date',
    'amount',
    'test',
  ]);
  expect(LOAD.priced?.lines).toBe(4);
});
