import { expect, test } from 'vitest';
import { ticketKey } from '../../../src/domain/matching/ticket-key.ts';

test.each([
  ['1047', '1047'],
  ['001047', '1047'],
  [' 1 047 ', '1047'],
  ['10–47', '1047'],
  ['1O47', '1047'],
  ['o1047', '1047'],
  ['t-0O12', 'T12'],
  ['T100', 'T100'],
  ['#7', '7'],
  ['０４７', '47'],
  ['000', '0'],
  ['A', 'A'],
])('%s is %s', (ticket, key) => {
  expect(ticketKey(ticket)).toBe(key);
});

test('nothing is no number', () => {
  expect([null, '', '  ', '-'].map(ticketKey)).toEqual([null, null, null, null]);
});
