/**
 * Weeks, prices paid, spreads, questions and the last season, by figures that were worked by hand.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import { lastSeason, type SeasonSpan } from '../../../src/domain/season/last-season.ts';
import { pricesPaid } from '../../../src/domain/season/price-paid.ts';
import { questionSums } from '../../../src/domain/season/question-endings.ts';
import { seasonSpread } from '../../../src/domain/season/test-groups.ts';
import { mondayOf, seasonWeeks } from '../../../src/domain/season/weeks.ts';
import { load, result } from './season-loads.ts';

describe('weeks', () => {
  test.each([
    // A calendar of 2026: 7 September is a Monday, and 1 January 2027 a Friday.
    ['2026-09-07', '2026-09-07'],
    ['2026-09-13', '2026-09-07'],
    ['2026-09-14', '2026-09-14'],
    ['2027-01-01', '2026-12-28'],
    ['2027-01-03', '2026-12-28'],
    ['2027-01-04', '2027-01-04'],
    ['1970-01-04', '1969-12-29'],
  ])('%s is in the week of %s', (date, monday) => {
    expect(mondayOf(date as LocalDate)).toBe(monday);
  });

  test('hold what came from Monday to Sunday, and count on through weeks without any', () => {
    const weeks = seasonWeeks([
      load({ on: '2026-09-28', pounds: 50_000 }),
      load({ on: '2026-09-07', pounds: 40_000, of: result('A', '70', '72'), value: 300_000n }),
      load({ on: '2026-09-13', pounds: 20_000, of: result('B', '65', '70'), value: 140_000n }),
    ]);
    expect(
      weeks.map(({ monday, sunday, nth, loads, value, unsettledLoads, wet, dry }) => [
        monday,
        sunday,
        nth,
        loads,
        value,
        unsettledLoads,
        printDecimal(wet),
        printDecimal(dry),
      ]),
    ).toEqual([
      // 40,000 × 70 % + 20,000 × 65 % = 28,000 + 13,000.
      ['2026-09-07', '2026-09-13', 1, 2, 440_000n, 0, '60000', '41000'],
      ['2026-09-28', '2026-10-04', 4, 1, 0n, 1, '50000', '0'],
    ]);
    expect(seasonWeeks([])).toEqual([]);
  });
});

describe('what was paid', () => {
  test('is all that was paid over all that came, never a mean of prices', () => {
    const { dryMatter, starch } = pricesPaid([
      // 28,000 lb dry, 20,160 lb of starch, for 3,000.00: 10.71… cents a pound.
      load({ on: '2026-09-07', pounds: 40_000, of: result('A', '70', '72'), value: 300_000n }),
      // 5,000 lb dry, 3,000 lb of starch, for 1,000.00: 20 cents a pound.
      load({ on: '2026-09-08', pounds: 10_000, of: result('B', '50', '60'), value: 100_000n }),
    ]);
    // 400,000 ÷ 33,000 = 12.1212…; the mean of the two prices would be 15.36.
    expect(dryMatter.perPound && printDecimal(dryMatter.perPound, 4)).toBe('12.1212');
    // 400,000 ÷ 23,160 = 17.2711…
    expect(starch.perPound && printDecimal(starch.perPound, 4)).toBe('17.2712');
    expect([dryMatter.leftOut, starch.leftOut]).toEqual([0, 0]);
  });

  test('is of settled loads, and leaves out those of which nobody knows how much was in them', () => {
    const { dryMatter, starch } = pricesPaid([
      load({ on: '2026-09-07', pounds: 40_000, of: result('A', '70', '50'), value: 280_000n }),
      // Tested, and not settled.
      load({ on: '2026-09-07', pounds: 40_000, of: result('B', '70', '50') }),
      // Settled by its weight alone.
      load({ on: '2026-09-07', pounds: 40_000, value: 900_000n }),
      // No starch reported.
      load({ on: '2026-09-07', pounds: 20_000, of: result('C', '60'), value: 120_000n }),
    ]);
    // 280,000 + 120,000 over 28,000 + 12,000 lb.
    expect(dryMatter).toMatchObject({ loads: 2, leftOut: 1, value: 400_000n });
    expect(dryMatter.perPound && printDecimal(dryMatter.perPound)).toBe('10');
    // 280,000 over 14,000 lb.
    expect(starch).toMatchObject({ loads: 1, leftOut: 2, value: 280_000n });
    expect(starch.perPound && printDecimal(starch.perPound)).toBe('20');
  });

  test('is nothing where nothing has settled', () => {
    const { dryMatter } = pricesPaid([load({ on: '2026-09-07', pounds: 1, of: result('A', '70') })]);
    expect(dryMatter).toMatchObject({ loads: 0, leftOut: 0, value: 0n, perPound: undefined });
  });
});

describe('the spread of the tests', () => {
  const composite = result('A', '72', '70');
  const loads = [
    load({ on: '2026-09-07', pounds: 40_000, of: composite, truck: 'T-1' }),
    load({ on: '2026-09-07', pounds: 30_000, of: composite, truck: 'T-2' }),
    load({ on: '2026-09-07', pounds: 20_000, of: result('B', '65', '74'), truck: 'T-1' }),
    load({ on: '2026-09-08', pounds: 10_000, of: result('C', '60', '60') }),
    load({ on: '2026-09-08', pounds: 10_000, truck: 'T-9' }),
  ];
  const told = (groups: ReturnType<typeof seasonSpread>['measures'][number]['days']) =>
    groups.map(({ of, loads, mean, spread: { count, least, median, greatest } }) => [
      of,
      loads,
      count,
      ...[least, median, greatest, mean].map((value) => printDecimal(value, 3)),
    ]);

  test('by day and by truck, a composite once, means by dry matter', () => {
    const { others, truckless, measures } = seasonSpread(loads);
    expect([others, truckless]).toEqual(['truck', 1]);
    expect(measures.map(({ whole }) => whole.measure)).toEqual(['dry-matter', 'starch']);
    const starch = measures[1];
    // 70,000 × 72 % = 50,400 lb dry at 70, 20,000 × 65 % = 13,000 at 74: 4,490,000 ÷ 63,400 = 70.8201…
    expect(told(starch?.days ?? [])).toEqual([
      ['2026-09-07', 3, 2, '70', '72', '74', '70.82'],
      ['2026-09-08', 1, 1, '60', '60', '60', '60'],
    ]);
    // T-1: 28,800 lb dry at 70 and 13,000 at 74: 71.2440…
    expect(told(starch?.others ?? [])).toEqual([
      ['T-1', 2, 2, '70', '72', '74', '71.244'],
      ['T-2', 1, 1, '70', '70', '70', '70'],
    ]);
  });

  test('by sample where no ticket names a truck', () => {
    const { others, truckless, measures } = seasonSpread([
      load({ on: '2026-09-07', pounds: 40_000, of: composite }),
      load({ on: '2026-09-07', pounds: 30_000, of: composite }),
    ]);
    expect([others, truckless]).toEqual(['sample', 0]);
    expect(told(measures[1]?.others ?? [])).toEqual([['A', 2, 1, '70', '70', '70', '70']]);
  });
});

test('questions are counted by their endings, and what they moved is never netted', () => {
  const ended = (ending: 'decided' | 'agreed' | 'withdrawn', changed: bigint, seller = 0n, buyer = 0n) => ({
    ending,
    changed,
    sellerBears: seller,
    buyerBears: buyer,
  });
  const sums = questionSums(6, [
    ended('decided', -4_000n, 4_800n),
    ended('decided', 0n, 0n, 3_000n),
    ended('decided', 1_500n, 100n, 100n),
    ended('withdrawn', 0n),
    ended('agreed', -500n),
  ]);
  expect(sums).toEqual({
    asked: 6,
    open: 1,
    ended: { decided: 3, agreed: 1, withdrawn: 1 },
    moving: 3,
    toSeller: 1_500n,
    toBuyer: 4_500n,
    sellerBears: 4_900n,
    buyerBears: 3_100n,
  });
});

describe('the last season', () => {
  const span = (id: string, first?: string, last?: string, other: Partial<SeasonSpan> = {}): SeasonSpan => ({
    id,
    sellerId: 'S',
    buyerId: 'B',
    feed: 'earlage',
    first: first as LocalDate | undefined,
    last: last as LocalDate | undefined,
    ...other,
  });
  const current = span('now', '2026-09-08', '2026-10-30');

  test('is the one that ended latest before this one began', () => {
    const others = [
      current,
      span('2024', '2024-09-01', '2024-10-30'),
      span('2025', '2025-09-01', '2025-10-30'),
      span('beside', '2026-08-01', '2026-09-08'),
      span('later', '2027-09-01', '2027-10-30'),
      span('empty'),
    ];
    expect(lastSeason(current, others)?.id).toBe('2025');
    expect(lastSeason(current, [...others, span('day before', '2026-08-30', '2026-09-07')])?.id).toBe(
      'day before',
    );
  });

  test('is of the same two parties and the same feed, or there is none', () => {
    const others = [
      span('sold back', '2025-09-01', '2025-10-30', { sellerId: 'B', buyerId: 'S' }),
      span('of others', '2025-09-01', '2025-10-30', { buyerId: 'C' }),
      span('other feed', '2025-09-01', '2025-10-30', { feed: 'snaplage' }),
    ];
    expect(lastSeason(current, others)).toBeUndefined();
    expect(lastSeason(span('nothing came'), [span('2025', '2025-09-01', '2025-10-30')])).toBeUndefined();
  });
});
