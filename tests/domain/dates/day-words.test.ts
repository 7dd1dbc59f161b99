/**
 * Days and whiles as they are said.
 */
import { expect, test } from 'vitest';
import { agoInWords, dayInWords } from '../../../src/domain/dates/day-words.ts';

test.each([
  ['2026-12-02', '2026-11-25', '2 December'],
  ['2027-01-31', '2026-11-25', '31 January 2027'],
  ['2025-11-25', '2026-11-25', '25 November 2025'],
])('%s, said on %s, is %s', (date, today, words) => {
  expect(dayInWords(date, today)).toBe(words);
});

const MINUTE = 60_000;
test.each([
  [-5, 'just now'],
  [59_999, 'just now'],
  [MINUTE, 'one minute ago'],
  [59.9 * MINUTE, '59 minutes ago'],
  [60 * MINUTE, 'one hour ago'],
  [23.9 * 60 * MINUTE, '23 hours ago'],
  [24 * 60 * MINUTE, 'one day ago'],
  [24 * 60 * MINUTE * 40, '40 days ago'],
])('%d ms is %s', (gone, words) => {
  expect(agoInWords(1_000_000_000, 1_000_000_000 + gone)).toBe(words);
});
