/**
 * Conditions that are sound, and each fault named at its own place.
 */
import { describe, expect, test } from 'vitest';
import { checkConditions, conditionsOf } from '../../../src/domain/agreement/conditions.ts';
import { printPath } from '../../../src/domain/agreement/problem.ts';
import { FULL_CONDITIONS } from './sample-blocks.ts';

function problemsOf(block: unknown): string[] {
  return checkConditions(block).map(({ path, message }) => `${printPath(path)} ${message}`);
}

function changed(part: Record<string, unknown>): Record<string, unknown> {
  return { ...FULL_CONDITIONS, ...part };
}

describe('sound conditions', () => {
  test('with every key, and read back as they stand', () => {
    expect(problemsOf(FULL_CONDITIONS)).toEqual([]);
    expect(conditionsOf({ conditions: FULL_CONDITIONS })).toEqual(FULL_CONDITIONS);
  });

  test('with any one key left out', () => {
    for (const key of Object.keys(FULL_CONDITIONS)) {
      const { [key]: _, ...rest } = FULL_CONDITIONS as Record<string, unknown>;
      expect(problemsOf(rest), key).toEqual([]);
    }
  });

  test('with none, and with one alone', () => {
    expect(problemsOf({})).toEqual([]);
    for (const [key, value] of Object.entries(FULL_CONDITIONS)) {
      expect(problemsOf({ [key]: value }), key).toEqual([]);
    }
  });

  const edges: [string, Record<string, unknown>][] = [
    ['a window of one day', { delivery: { from: '2026-09-10', to: '2026-09-10' } }],
    ['a window with one end', { delivery: { to: '2026-10-05' } }],
    ['payment on the day', { payment: { netDays: '0', from: 'delivery' } }],
    ['a tolerance of none', { volume: { ...FULL_CONDITIONS.volume, tolerancePercent: '0' } }],
    ['a buyer who deals', { buyerStatement: { feedsToOwnAnimals: false } }],
  ];
  test.each(edges)('%s', (_, part) => {
    expect(problemsOf(changed(part))).toEqual([]);
  });
});

describe('faults', () => {
  const faults: [what: string, part: Record<string, unknown>, path: string, message: RegExp][] = [
    ['a key of no kind', { extras: 'x' }, '$.conditions.extras', /is not a known key/],
    [
      'a key of no kind within',
      { payment: { netDays: '14', from: 'delivery', penalty: '2' } },
      '$.conditions.payment.penalty',
      /is not a known key/,
    ],
    [
      'a bare number',
      { volume: { ...FULL_CONDITIONS.volume, amount: 1500 } },
      '$.conditions.volume.amount',
      /found the bare number 1500/,
    ],
    [
      'no volume at all',
      { volume: { ...FULL_CONDITIONS.volume, amount: '0' } },
      '$.conditions.volume.amount',
      /above 0/,
    ],
    [
      'a volume without its weight',
      { volume: { amount: '10', unit: 'tonne' } },
      '$.conditions.volume.weight',
      /is missing: one of "as-fed", "dry-matter"/,
    ],
    [
      'a tolerance below 0',
      { volume: { ...FULL_CONDITIONS.volume, tolerancePercent: '-1' } },
      '$.conditions.volume.tolerancePercent',
      /from 0 to 100/,
    ],
    [
      'a window out of order',
      { delivery: { from: '2026-10-06', to: '2026-10-05' } },
      '$.conditions.delivery.from',
      /must not be after "to"; found 2026-10-06 after 2026-10-05/,
    ],
    [
      'a day that is on no calendar',
      { delivery: { from: '2026-02-30' } },
      '$.conditions.delivery.from',
      /must be a date/,
    ],
    [
      'a third party that hauls',
      { delivery: { hauledBy: 'A. N. Other' } },
      '$.conditions.delivery.hauledBy',
      /must be one of "seller", "buyer"/,
    ],
    ['an empty group', { weighing: {} }, '$.conditions.weighing', /holds nothing/],
    [
      'yes as a word',
      { weighing: { legalForTrade: 'yes' } },
      '$.conditions.weighing.legalForTrade',
      /must be true or false/,
    ],
    [
      'half a day',
      { payment: { netDays: '1.5', from: 'delivery' } },
      '$.conditions.payment.netDays',
      /a whole number/,
    ],
    ['no lender', { lienHolders: [] }, '$.conditions.lienHolders', /at least one name/],
    [
      'a lender twice',
      { lienHolders: [{ name: 'Harrow Mutual' }, { name: 'Harrow Mutual ' }] },
      '$.conditions.lienHolders[1].name',
      /a second time/,
    ],
    [
      'a yearly volume without its unit',
      { buyerStatement: { yearlyVolume: '10' } },
      '$.conditions.buyerStatement.unit',
      /is missing/,
    ],
    [
      'a unit of nothing',
      { buyerStatement: { unit: 'tonne' } },
      '$.conditions.buyerStatement.yearlyVolume',
      /is missing/,
    ],
    ['a blank text', { notes: '  ' }, '$.conditions.notes', /not empty/],
    ['a text that rings', { quality: 'good\u0007' }, '$.conditions.quality', /without control characters/],
  ];
  test.each(faults)('%s', (_, part, path, message) => {
    const problems = problemsOf(changed(part));
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(message);
    expect(problems[0]?.startsWith(`${path} `), problems[0]).toBe(true);
    expect(conditionsOf({ conditions: changed(part) as Record<string, string> })).toBeUndefined();
  });

  test('hide no other one', () => {
    const paths = checkConditions(
      changed({
        extras: 'x',
        delivery: { from: '2026-10-06', to: '2026-10-05', hauledBy: 'nobody' },
        payment: { netDays: '14', invoices: 'year' },
        lienHolders: [{ name: 'Harrow Mutual' }, { name: 'Harrow Mutual' }, {}],
      }),
    ).map(({ path }) => printPath(path));
    expect(paths.sort()).toEqual([
      '$.conditions.delivery.from',
      '$.conditions.delivery.hauledBy',
      '$.conditions.extras',
      '$.conditions.lienHolders[1].name',
      '$.conditions.lienHolders[2].name',
      '$.conditions.payment.from',
      '$.conditions.payment.invoices',
    ]);
  });

  test.each([['text'], [null], [[]], [undefined]])('%s is no block', (block) => {
    expect(problemsOf(block)).toEqual([expect.stringMatching(/^\$\.conditions must be a group in braces/)]);
  });

  test('a key that JavaScript gives a meaning', () => {
    expect(problemsOf(JSON.parse('{"__proto__":{"notes":"x"}}'))).toHaveLength(1);
  });
});
