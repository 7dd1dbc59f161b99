/**
 * Rules for retests that are sound, and each fault named at its own place.
 */
import { describe, expect, test } from 'vitest';
import { printPath } from '../../../src/domain/agreement/problem.ts';
import { checkRetestRules, partsTested, retestRulesOf } from '../../../src/domain/agreement/retest-rules.ts';
import { FULL_RETEST } from './sample-blocks.ts';

function problemsOf(block: unknown): string[] {
  return checkRetestRules(block).map(({ path, message }) => `${printPath(path)} ${message}`);
}

function changed(part: Record<string, unknown>): Record<string, unknown> {
  return { ...FULL_RETEST, ...part };
}

function without(...keys: string[]): Record<string, unknown> {
  return Object.fromEntries(Object.entries(FULL_RETEST).filter(([key]) => !keys.includes(key)));
}

const WEIGHT = { weight: { method: 'second-scale' } };
const ONE_LABORATORY = { ash: { method: 'iso-5725', repeatability: '1.4', test: 'cheap' } };

describe('sound rules', () => {
  test('with every key, and read back as they stand', () => {
    expect(problemsOf(FULL_RETEST)).toEqual([]);
    expect(retestRulesOf({ retest: FULL_RETEST })).toEqual(FULL_RETEST);
  });

  const sound: [string, Record<string, unknown>][] = [
    ['no parts named', without('parts')],
    ['no referee where no method needs one', { ...without('referee'), measures: ONE_LABORATORY }],
    [
      'no referee and no kept part where only weight is questioned',
      { ...without('referee', 'keptDays', 'parts'), measures: WEIGHT },
    ],
    ['only the parts that are tested', changed({ parts: ['laboratory'], measures: ONE_LABORATORY })],
    [
      'r and R the same',
      changed({ measures: { ash: { ...FULL_RETEST.measures.ash, repeatability: '2.80' } } }),
    ],
    ['a tolerance of none', changed({ measures: { starch: { method: 'referee-stands', tolerance: '0' } } })],
    ['samples kept for a shorter time than questions take, which is advice', changed({ keptDays: '5' })],
  ];
  test.each(sound)('%s', (_, block) => {
    expect(problemsOf(block)).toEqual([]);
  });
});

describe('faults', () => {
  const faults: [what: string, block: Record<string, unknown>, path: string, message: RegExp][] = [
    ['a key of no kind', changed({ extras: 'x' }), '$.retest.extras', /is not a known key/],
    ['no window to ask', without('askWithinDays'), '$.retest.askWithinDays', /is missing: a whole number/],
    ['a window of none', changed({ askWithinDays: '0' }), '$.retest.askWithinDays', /from 1 to 999/],
    ['a part of a day', changed({ keptDays: '30.5' }), '$.retest.keptDays', /a whole number/],
    ['no word of how long samples are kept', without('keptDays'), '$.retest.keptDays', /is missing/],
    ['no fee', without('fee'), '$.retest.fee', /is missing: one of "asker-unless-moved"/],
    ['a part twice', changed({ parts: [...FULL_RETEST.parts, 'buyer'] }), '$.retest.parts[4]', /second time/],
    ['no parts', changed({ parts: [], measures: WEIGHT }), '$.retest.parts', /at least one part/],
    [
      'a part that a method tests and nobody keeps',
      changed({ parts: ['laboratory', 'seller', 'referee'] }),
      '$.retest.parts',
      /must name "buyer": the method "astm-d3244" for crude-protein tests that part/,
    ],
    [
      'no referee while a method needs one',
      without('referee'),
      '$.retest.referee',
      /the method "referee-stands" for dry-matter needs one/,
    ],
    [
      'no referee while the fee needs one',
      { ...without('referee'), measures: ONE_LABORATORY, fee: 'further-from-referee' },
      '$.retest.referee',
      /the fee depends on its figure/,
    ],
    ['nothing to question', changed({ measures: {} }), '$.retest.measures', /at least one figure/],
    [
      'a figure of no kind',
      changed({ measures: { ...WEIGHT, moisture: { method: 'median' } } }),
      '$.retest.measures.moisture',
      /is not a known key/,
    ],
    [
      'a key that JavaScript gives a meaning',
      changed({ measures: JSON.parse('{"starch":{"method":"median"},"__proto__":{"method":"median"}}') }),
      '$.retest.measures.__proto__',
      /is not a known key/,
    ],
    [
      'a method of no kind',
      changed({ measures: { starch: { method: 'a coin' } } }),
      '$.retest.measures.starch.method',
      /must be one of "referee-stands", "closest-two"/,
    ],
    [
      'a weight by a laboratory',
      changed({ measures: { weight: { method: 'median' } } }),
      '$.retest.measures.weight.method',
      /must be "second-scale" for a weight/,
    ],
    [
      'starch by a scale',
      changed({ measures: { starch: { method: 'second-scale' } } }),
      '$.retest.measures.starch.method',
      /decides about "weight" only/,
    ],
    [
      'a tolerance below 0',
      changed({ measures: { starch: { method: 'referee-stands', tolerance: '-0.5' } } }),
      '$.retest.measures.starch.tolerance',
      /0 or more/,
    ],
    [
      'a tolerance where none is used',
      changed({ measures: { starch: { method: 'median', tolerance: '1' } } }),
      '$.retest.measures.starch.tolerance',
      /is not a known key/,
    ],
    [
      'R below r',
      changed({ measures: { ash: { ...FULL_RETEST.measures.ash, reproducibility: '1.3' } } }),
      '$.retest.measures.ash.reproducibility',
      /must not be less than "repeatability"; found 1.3 and 1.4/,
    ],
    [
      'no rule for equal distance',
      changed({ measures: { ash: { method: 'astm-d3244', reproducibility: '2' } } }),
      '$.retest.measures.ash.tie',
      /is missing/,
    ],
  ];
  test.each(faults)('%s', (_, block, path, message) => {
    const problems = problemsOf(block);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(message);
    expect(problems[0]?.startsWith(`${path} `), problems[0]).toBe(true);
    expect(retestRulesOf({ retest: block as Record<string, string> })).toBeUndefined();
  });

  test('hide no other one', () => {
    const paths = checkRetestRules({
      ...without('referee', 'askWithinDays'),
      fee: 'nobody',
      parts: ['laboratory'],
      measures: { weight: { method: 'median' }, starch: { method: 'referee-stands', tolerance: 'a bit' } },
    }).map(({ path }) => printPath(path));
    expect(paths.sort()).toEqual([
      '$.retest.askWithinDays',
      '$.retest.fee',
      '$.retest.measures.starch.tolerance',
      '$.retest.measures.weight.method',
      '$.retest.parts',
      '$.retest.referee',
    ]);
  });

  test.each([['text'], [null], [[]], [undefined]])('%s is no block', (block) => {
    expect(problemsOf(block)).toEqual([expect.stringMatching(/^\$\.retest must be a group in braces/)]);
  });
});

test('each method names the parts that it tests', () => {
  expect(partsTested({ method: 'second-scale' })).toEqual([]);
  expect(partsTested({ method: 'referee-stands' })).toEqual(['referee']);
  expect(partsTested(ONE_LABORATORY.ash)).toEqual(['laboratory']);
  expect(partsTested(FULL_RETEST.measures.ash)).toEqual(['laboratory', 'referee']);
  expect(partsTested(FULL_RETEST.measures['crude-protein'])).toEqual(['seller', 'buyer', 'referee']);
});
