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

test('an act about a question is read with what it is about, its figures and who paid', () => {
  const { lines, problems } = readStory(
    [
      '2026-11-19  Tarn Hollow Dairy reports 55.28 for dry matter of sample E-4 by Fenn Hollow Assays, its own laboratory, on 2026-11-18 for 22.00, paid by Tarn Hollow Dairy',
      '2026-11-19  Quillback Acres confirms 47,900 for the weight of ticket 806',
      '2026-11-19  Tarn Hollow Dairy proposes to agree on 29.80 about ndf of sample E-5, costs on Quillback Acres: half way',
    ].join('\n'),
    PARTIES,
  );
  expect(problems).toEqual([]);
  expect(lines.map(({ act }) => act)).toEqual([
    {
      act: 'report-figure',
      subject: { about: 'dry matter', sample: 'E-4' },
      tester: 'own',
      testedBy: 'Fenn Hollow Assays',
      value: '55.28',
      testedOn: '2026-11-18',
      charge: '22.00',
      payer: 'Tarn Hollow Dairy',
    },
    { act: 'confirm-figure', subject: { about: 'weight', ticket: '806' }, value: '47900' },
    {
      act: 'propose-ending',
      subject: { about: 'ndf', sample: 'E-5' },
      value: '29.80',
      bearer: 'Quillback Acres',
      reason: 'half way',
    },
  ]);
});

test('every line of the demo is read', () => {
  const stories = ['paid-by-week', 'asked-again'].map((name) =>
    readStory(readFileSync(`demo/${name}/money.txt`, 'utf8'), PARTIES),
  );
  expect(stories.flatMap(({ problems }) => problems)).toEqual([]);
  // Each thing that can be told is told in them: seventeen of money, eleven of samples, scales and questions.
  expect(new Set(stories.flatMap(({ lines }) => lines.map(({ act }) => act.act))).size).toBe(17 + 11);
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
  [
    '2026-11-10  Tarn Hollow Dairy questions starch of sample E-1 as 53.0',
    'line 1: "questions starch of sample E-1 as 53.0" is none of the things that a story tells, which are like',
  ],
  [
    '2026-11-10  Tarn Hollow Dairy reports 52.80 for starch of sample E-1 by Bell Reach Referees on 2026-11-09 for 48.00, paid by Tarn Hollow Dairy',
    'line 1: "reports 52.80 for starch of sample E-1 by Bell Reach Referees on 2026-11-09 for 48.00, paid by Tarn Hollow Dairy" is none of the things that a story tells, which are like',
  ],
  [
    '2026-11-10  Tarn Hollow Dairy reports gross 78,340 and tare 30,440 for ticket 806 by the scale Feed Pad on 2026-11-31 for 25.00, paid by Tarn Hollow Dairy',
    'line 1: names a day that is not on the calendar: "reports gross 78,340 and tare 30,440 for ticket 806 by the scale Feed Pad on 2026-11-31 for 25.00, paid by Tarn Hollow Dairy"',
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
