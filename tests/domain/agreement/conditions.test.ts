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

const VOLUME = { amount: '10', unit: 'tonne', weight: 'as-fed', tolerancePercent: '5' };

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
    ['a volume without rules', { volume: { amount: '10', unit: 'tonne', weight: 'as-fed' } }],
    ['tons over for nothing', { volume: { ...VOLUME, surplus: { from: 'range', price: '0' } } }],
    ['all of the average', { volume: { ...VOLUME, surplus: { from: 'range', percentOfAverage: '100' } } }],
    ['quotes of one day', { trueUp: { prices: { from: '2026-09-01', to: '2026-09-01' } } }],
    ['the average test alone', { trueUp: { tests: true } }],
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
      'a shortfall that costs nothing said',
      { volume: { ...VOLUME, shortfall: { owedBy: 'seller', from: 'range' } } },
      '$.conditions.volume.shortfall.rate',
      /is missing: money for each ton, like "4\.25"; or "percentOfAverage" in its place/,
    ],
    [
      'a shortfall that costs two things',
      {
        volume: {
          ...VOLUME,
          shortfall: { owedBy: 'seller', from: 'range', rate: '5', percentOfAverage: '5' },
        },
      },
      '$.conditions.volume.shortfall.percentOfAverage',
      /is a second figure for each ton beside "rate"; keep one of them/,
    ],
    [
      'a shortfall that nobody owes',
      { volume: { ...VOLUME, shortfall: { from: 'range', rate: '5' } } },
      '$.conditions.volume.shortfall.owedBy',
      /is missing: one of "seller", "buyer"/,
    ],
    [
      'a shortfall that is counted from nothing',
      { volume: { ...VOLUME, shortfall: { owedBy: 'buyer', rate: '5' } } },
      '$.conditions.volume.shortfall.from',
      /is missing: one of "range", "amount"/,
    ],
    [
      'a shortfall with a price',
      { volume: { ...VOLUME, shortfall: { owedBy: 'buyer', from: 'range', rate: '5', price: '5' } } },
      '$.conditions.volume.shortfall.price',
      /is not a known key/,
    ],
    [
      'a shortfall that can never come about',
      {
        volume: {
          ...{ ...VOLUME, tolerancePercent: '100' },
          shortfall: { owedBy: 'seller', from: 'amount', rate: '5' },
        },
      },
      '$.conditions.volume.shortfall',
      /can never come about with a tolerance of 100 %/,
    ],
    [
      'a shortfall of a volume that does not say its weight',
      { volume: { amount: '10', unit: 'tonne', shortfall: { owedBy: 'seller', from: 'range', rate: '5' } } },
      '$.conditions.volume.weight',
      /is missing/,
    ],
    [
      'a surplus by nothing',
      { volume: { ...VOLUME, surplus: { from: 'amount' } } },
      '$.conditions.volume.surplus.rate',
      /is missing: .* or "percentOfAverage" or "price" in its place/,
    ],
    [
      'a surplus by two figures',
      { volume: { ...VOLUME, surplus: { from: 'amount', percentOfAverage: '5', price: '50' } } },
      '$.conditions.volume.surplus.price',
      /is a second figure for each ton beside "percentOfAverage"/,
    ],
    [
      'more than all of the average',
      { volume: { ...VOLUME, surplus: { from: 'range', percentOfAverage: '100.01' } } },
      '$.conditions.volume.surplus.percentOfAverage',
      /at most 100/,
    ],
    [
      'a rate of nothing',
      { volume: { ...VOLUME, surplus: { from: 'range', rate: '0' } } },
      '$.conditions.volume.surplus.rate',
      /above 0/,
    ],
    [
      'days to average out of order',
      { trueUp: { prices: { from: '2026-12-01', to: '2026-11-30' } } },
      '$.conditions.trueUp.prices.from',
      /must not be after "to"; found 2026-12-01 after 2026-11-30/,
    ],
    [
      'days to average without an end',
      { trueUp: { prices: { from: '2026-12-01' } } },
      '$.conditions.trueUp.prices.to',
      /is missing/,
    ],
    ['pricing again by nothing', { trueUp: {} }, '$.conditions.trueUp', /holds nothing/],
    ['no average test, said', { trueUp: { tests: false } }, '$.conditions.trueUp.tests', /must be true/],
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
