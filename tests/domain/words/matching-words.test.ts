import { expect, test } from 'vitest';
import type { ListRow } from '../../../src/domain/matching/list-row.ts';
import { type ListNames, listOfParty, outcomeInWords } from '../../../src/domain/words/matching-words.ts';
import { day, pairOf } from '../matching/one-pair.ts';

const NAMES: ListNames = {
  mine: 'your list',
  record: 'the record',
  load: (side, id) => `load ${id} of ${side === 'mine' ? 'your list' : 'the record'}`,
  currency: 'USD',
};
const UNSEEN = { gross: null, tare: null };

const CASES: readonly (readonly [string, Partial<ListRow>])[] = [
  ['Agrees.', {}],
  ['Agrees, to the rounding of the two units.', { unit: 'kg', net: '21373', ...UNSEEN }],
  [
    'Your list has 41720 lb, the record 47120 lb: 5400 lb less. Most likely in one of the two lists two digits of the net weight have changed places.',
    { net: '41720' },
  ],
  [
    'Your list has 21373 lb, the record 47120 lb: 25747 lb less. Most likely in your list the figure is in kilograms and stands there as one in pounds.',
    { net: '21373', ...UNSEEN },
  ],
  [
    'Your list has 78220 lb, the record 47120 lb: 31100 lb more. Most likely your list has the gross weight for the net weight.',
    { net: '78220' },
  ],
  [
    'Your list has 44560 lb, the record 47120 lb: 2560 lb less. Most likely your list has the tare of another truck, that of load r2 of the record.',
    { tare: '33660', net: '44560' },
  ],
  [
    'Your list has 471120 lb, the record 47120 lb: 424000 lb more. Most likely in your list one digit of the net weight stands twice. It could also be that in the record one digit of the net weight is left out.',
    { net: '471120' },
  ],
  [
    'Your list has 46333 lb, the record 47120 lb: 787 lb less. Nothing that was tried explains this exactly.',
    { net: '46333' },
  ],
  [
    'Your list has 15 September, the record 14 September: 1 day later. Most likely the load came around midnight, and your list and the record have the days on either side of it. It could also be that in one of the two lists one digit of the day is mistyped.',
    { deliveredOn: day('2026-09-15') },
  ],
  [
    'Your list has 1934.11 USD, the record 1986.85 USD: 52.74 USD less. Most likely your list used the quote of 12 September.',
    { amount: '1934.11' },
  ],
  [
    'Your list has 2086.98 USD, the record 1986.85 USD: 100.13 USD more. Most likely your list leaves out hauling.',
    { amount: '2086.98' },
  ],
  [
    'Your list has 1986.83 USD, the record 1986.85 USD: 0.02 USD less. Most likely the lines were rounded otherwise. It could also be that in one of the two lists one digit of the amount is mistyped.',
    { amount: '1986.83' },
  ],
  [
    'Your list has 40.8 % dry matter, the record 59.2 %: 18.4 points less. Most likely one of the two lists has the moisture for the dry matter.',
    { dryMatter: '40.8' },
  ],
  [
    'Your list has ticket 1074, the record ticket 1047. Most likely in one of the two lists two digits of the ticket have changed places.',
    { ticket: '1074' },
  ],
];

test.each(CASES)('%s', (words, change) => {
  expect(outcomeInWords(pairOf(change), NAMES)).toEqual([words]);
});

test.each(CASES)('with the other office’s list in the record’s place: %s', (words, change) => {
  const theirs = listOfParty('Oddmeadow Farm');
  const names: ListNames = {
    ...NAMES,
    record: theirs,
    load: (side, id) => `line ${id} of ${side === 'mine' ? 'your list' : theirs}`,
  };
  const expected = words
    .replace('load r2 of the record', 'line r2 of Oddmeadow Farm’s list')
    .replaceAll('the record', 'Oddmeadow Farm’s list');
  expect(outcomeInWords(pairOf(change), names)).toEqual([expected]);
});

test('a list is called by its party, as its name ends', () => {
  expect(['Oddmeadow Farm', 'Quillback Acres'].map(listOfParty)).toEqual([
    'Oddmeadow Farm’s list',
    'Quillback Acres’ list',
  ]);
});

test('a row without a partner', () => {
  const { mine: row } = pairOf({});
  const told = (outcome: Parameters<typeof outcomeInWords>[0]) => outcomeInWords(outcome, NAMES)[0];
  expect(told({ kind: 'only', in: 'record', row, isUndecided: false })).toBe(
    'This load is only in the record.',
  );
  expect(told({ kind: 'only', in: 'mine', row, isUndecided: true })).toContain('alike');
  expect(told({ kind: 'twice', in: 'mine', row, of: 'm7' })).toBe(
    'This load stands twice in your list: load m7 of your list.',
  );
});
