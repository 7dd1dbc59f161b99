/**
 * What is said of two that met often: who, how often, by how much, and what chance alone would do.
 */
import { describe, expect, test } from 'vitest';
import type { Questioned } from '../../src/domain/agreement/retest-rules.ts';
import type { LocalDate } from '../../src/domain/dates/local-date.ts';
import { decimal } from '../../src/domain/numbers/exact.ts';
import { patternsOf } from '../../src/domain/retests/patterns.ts';
import type { RetestMeeting } from '../../src/usecases/retests/meetings.ts';
import { doubtWords, oddsWords, patternWords } from '../../src/usecases/retests/pattern-words.ts';

interface Told {
  readonly about?: Questioned;
  readonly unit?: string;
  readonly doubted?: readonly RetestMeeting['doubted'][];
}

/** The pattern of "−0.4 0.2": what Bell read more than Alder, each time. */
function pattern(
  differences: string,
  { about = 'starch', unit = '% of dry matter', doubted = [] }: Told = {},
) {
  const meetings = differences.split(' ').map(
    (difference, index): RetestMeeting => ({
      about,
      unit,
      one: 'Alder',
      other: 'Bell',
      oneValue: decimal('0'),
      otherValue: decimal(difference),
      on: '2026-10-05' as LocalDate,
      retestId: String(index),
      agreementId: 'A',
      subject: `sample S${index}`,
      decimals: 1,
      doubted: doubted[index % doubted.length] ?? 'too-high',
    }),
  );
  const [found] = patternsOf(meetings);
  if (!found) throw new Error('They never met');
  return found;
}

const said = (differences: string, told?: Told) =>
  patternWords(pattern(differences, told), { show: (figure) => figure, places: 1 });

describe('who, how often and by how much', () => {
  test.each([
    ['-1', 'The one time they met, Alder reported more starch than Bell. It reported 1 point more.'],
    ['0', 'The one time they met, Alder and Bell reported the same.'],
    ['0 0', 'Both times Alder and Bell reported the same.'],
    ['0.4 0.5', 'Both times Bell reported more starch than Alder. On average Bell reported 0.5 points more.'],
    [
      '0.4 0.2 -0.3 0',
      '2 of 4 times Bell reported more starch than Alder, and once the other way round. Once they agreed. On average Bell reported 0.1 points more.',
    ],
    // More often is not by more.
    [
      '0.1 0.1 -2.2',
      '2 of 3 times Bell reported more starch than Alder, and once the other way round. On average Alder reported 0.7 points more.',
    ],
    [
      '0.3 -0.3',
      'Once each of Alder and Bell reported more starch than the other. On average they are level.',
    ],
    // What rounding would make nothing of is told all the same.
    [
      '0.1 0 0',
      '1 of 3 times Bell reported more starch than Alder. Twice they agreed. On average Bell reported 0.033 points more.',
    ],
  ])('%s: %s', (differences, split) => {
    expect(said(differences).split).toBe(split);
  });

  test.each([
    ['weight', 'lb', 'Both times Bell showed more weight than Alder. On average Bell showed 150 lb more.'],
    ['ph', '', 'Both times Bell reported a higher pH than Alder. On average Bell reported 150 more.'],
    [
      'aflatoxin',
      'µg/kg as-fed',
      'Both times Bell reported more aflatoxin than Alder. On average Bell reported 150 µg/kg as-fed more.',
    ],
    [
      'particle-size',
      'µm',
      'Both times Bell reported a larger particle size than Alder. On average Bell reported 150 µm more.',
    ],
  ] as const)('of %s', (about, unit, split) => {
    expect(said('100 200', { about, unit }).split).toBe(split);
  });
});

describe('chance', () => {
  const HARDLY =
    'That is hard to put down to chance. It shows that the two differ, not which of them is right.';
  const MAYBE = 'It may be chance, or not: more meetings would tell.';
  const odds = (sign: string, t?: string) =>
    `If neither read higher as a rule, chance alone would make it as one-sided as this ${sign}.${t === undefined ? '' : ` Going by how far apart they are as well, ${t}.`}`;

  test.each([
    ['1 1.1 1 1.2', 'Too few to tell: from 5 meetings on, this page says what chance alone would do.'],
    ['0 0 0 0 0', 'Nothing here speaks for a difference.'],
    ['1 -1 1 -1 1 -1', 'Neither reads higher as a rule: chance alone gives a split like this.'],
    // By the count alone five are never enough, however near to one another they lie.
    ['1 1.1 1 1.2 1', `${odds('about 6 times in 100', 'less than once in 1,000')} ${MAYBE}`],
    ['1 1.1 1 1.2 1 0.9', `${odds('about 3 times in 100', 'less than once in 1,000')} ${HARDLY}`],
    // One that lies far out: the count says so, the size does not.
    ['0.1 0.1 0.1 0.1 0.1 9', `${odds('about 3 times in 100', 'about 33 times in 100')} ${MAYBE}`],
    ['1 1 1 1 1 1', `${odds('about 3 times in 100')} ${HARDLY}`],
    ['1 -1.2 0.8 1.1 -0.9', 'Neither reads higher as a rule: chance alone gives a split like this.'],
    [
      '1 -1.2 0.8 1.1 -0.9 0.4',
      `${odds('about 69 times in 100', 'about 65 times in 100')} That happens easily: nothing is shown here.`,
    ],
  ])('%s', (differences, chance) => {
    expect(said(differences).chance).toBe(chance);
  });

  test.each([
    ['0.0703125', 'about 7 times in 100'],
    ['0.0095', 'about once in 100'],
    ['0.0094', 'about 9 times in 1,000'],
    ['0.0014', 'about once in 1,000'],
    ['0.0005', 'about once in 1,000'],
    ['0.0004', 'less than once in 1,000'],
  ])('%s is %s', (p, words) => {
    expect(oddsWords(decimal(p))).toBe(words);
  });
});

describe('figures that are picked to be questioned', () => {
  test('are said to make a difference where all were doubted to the side on which they lie', () => {
    expect(doubtWords(pattern('-1 -1.2 -0.9 -1 0.2'))).toContain(
      'All 5 figures of Alder were questioned as too high',
    );
    const low = { doubted: ['too-low'] } as const;
    expect(doubtWords(pattern('1 1 1 1 1', low))).toContain(
      'as too low, and figures that are picked for that come out higher',
    );
    expect(doubtWords(pattern('-5 -5', { about: 'weight', unit: 'lb' }))).toContain(
      'Trucks that are weighed on both',
    );
  });

  test('are no reason where some were doubted the other way, or the difference goes against the doubt', () => {
    expect(doubtWords(pattern('-1 -1', { doubted: ['too-high', 'too-low'] }))).toBeUndefined();
    expect(doubtWords(pattern('1 1'))).toBeUndefined();
    expect(doubtWords(pattern('1 -1'))).toBeUndefined();
  });
});
