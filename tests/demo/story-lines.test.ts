/**
 * The lines of a story: what is not understood is a problem that names its line, and nothing of it is passed over.
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readStory } from '../../demo/story-lines.ts';

const PARTIES = ['Quillback Acres', 'Tarn Hollow Dairy'];

function problemsOf(...lines: readonly string[]): readonly string[] {
  // What follows the first line is a list of all that could be said.
  return readStory(lines.join('\n'), PARTIES).problems.map((problem) => problem.split('\n')[0] ?? '');
}

test('an act is read with its day, its party and its figures', () => {
  const { lines, problems } = readStory(
    '# a remark\n\n2026-10-19  Tarn Hollow Dairy pays 7,000.00 by check 1060 made out jointly, 5,694.48 of it for invoice 7\n',
    PARTIES,
  );
  expect(problems).toEqual([]);
  expect(lines).toEqual([
    {
      line: 3,
      day: '2026-10-19',
      by: 'Tarn Hollow Dairy',
      act: {
        act: 'pay',
        amount: '7000.00',
        method: 'check',
        reference: '1060',
        isJoint: true,
        part: { amount: '5694.48', document: 'invoice 7' },
        pastLien: undefined,
      },
    },
  ]);
});

test('every line of the demo is read', () => {
  const { lines, problems } = readStory(readFileSync('demo/paid-by-week/money.txt', 'utf8'), PARTIES);
  expect(problems).toEqual([]);
  // Each thing that can be told is told in it.
  expect(new Set(lines.map(({ act }) => act.act)).size).toBe(17);
});

test.each([
  [
    '2026-09-14  Quillback Acres forgets what is over',
    'line 1: "forgets what is over" is none of the things that a story tells, which are like',
  ],
  [
    '2026-09-14  Quillback Acres issues what is over now',
    'line 1: "issues what is over now" is none of the things that a story tells, which are like',
  ],
  [
    '2026-09-14  Tarn Hollow Dairy pays 1,00.00 by check 1',
    'line 1: "pays 1,00.00 by check 1" is none of the things that a story tells, which are like',
  ],
  [
    '2026-09-14  Sorrel Bend Dairy gives advances',
    'line 1: must say who: Quillback Acres or Tarn Hollow Dairy; found "Sorrel Bend Dairy gives advances"',
  ],
  [
    '2026-09-14 Quillback Acres gives advances',
    'line 1: must begin with a day and two spaces, like "2026-09-14  "; found "2026-09-14 Quillback Acres gives advances"',
  ],
  [
    '2026-09-31  Quillback Acres gives advances',
    'line 1: must begin with a day and two spaces, like "2026-09-14  "; found "2026-09-31  Quillback Acres gives advances"',
  ],
  [
    '2026-09-14  Quillback Acres charges interest through 2026-02-30',
    'line 1: names a day that is not on the calendar: "charges interest through 2026-02-30"',
  ],
])('%s', (line, problem) => {
  expect(problemsOf(line)).toEqual([problem]);
});

test('all problems are named, and days that go back are one', () => {
  expect(
    problemsOf(
      '2026-09-14  Quillback Acres gives advances',
      '',
      '2026-09-13  Quillback Acres gives advances',
      'nothing of the kind',
    ),
  ).toEqual([
    'line 3: 2026-09-13 comes after 2026-09-14; a story goes forward',
    'line 4: must begin with a day and two spaces, like "2026-09-14  "; found "nothing of the kind"',
  ]);
});
