/**
 * How a scale's test stands on a day, at the edges: the day it is due, the day after, and days before it was made.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import {
  standingByVersions,
  standingInWords,
  testStanding,
} from '../../../src/domain/scales/test-standing.ts';

const tested = (testedOn?: string, testDueOn?: string) => ({
  testedOn: testedOn as LocalDate | undefined,
  testDueOn: testDueOn as LocalDate | undefined,
});
const YEARLY = tested('2025-09-14', '2026-09-14');

describe('a test', () => {
  test.each([
    ['2025-09-13', 'No test of this scale is recorded up to this day.'],
    ['2025-09-14', 'Tested on 2025-09-14; the next test is due by 2026-09-14.'],
    ['2026-08-14', 'Tested on 2025-09-14; the next test is due by 2026-09-14.'],
    ['2026-08-15', 'Tested on 2025-09-14; the next test is due by 2026-09-14, in 30 days.'],
    ['2026-09-13', 'Tested on 2025-09-14; the next test is due by 2026-09-14, in 1 day.'],
    ['2026-09-14', 'Tested on 2025-09-14; the next test is due on this day.'],
    [
      '2026-09-15',
      'The test of this scale was due by 2026-09-14 and is overdue by 1 day; it was last tested on 2025-09-14.',
    ],
  ])('on %s', (on, words) => {
    expect(standingInWords(testStanding(YEARLY, on as LocalDate))).toBe(words);
  });

  test('with no next one named is in date', () => {
    expect(standingInWords(testStanding(tested('2020-01-02'), '2026-09-14' as LocalDate))).toBe(
      'Tested on 2020-01-02; no next test is named.',
    );
  });

  test('that was made later says nothing of an earlier day', () => {
    const versions = [tested(), YEARLY, tested('2026-10-01', '2027-10-01')];
    expect(standingByVersions(versions, '2025-01-01' as LocalDate).is).toBe('never-tested');
    expect(standingByVersions(versions, '2026-09-20' as LocalDate)).toMatchObject({ is: 'overdue', days: 6 });
    expect(standingByVersions(versions, '2026-10-01' as LocalDate)).toMatchObject({
      is: 'fine',
      dueOn: '2027-10-01',
    });
  });

  test('whose due date was put right counts as put right', () => {
    const versions = [YEARLY, tested('2025-09-14', '2026-12-31')];
    expect(standingByVersions(versions, '2026-09-20' as LocalDate).is).toBe('fine');
  });
});
