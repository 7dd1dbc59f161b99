/**
 * Means, spread, days and the commitment, by figures that were worked by hand.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { decimal, whole } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import {
  againstCommitted,
  type CountedLoad,
  deliveredOf,
  progressByDay,
  testProgress,
} from '../../../src/domain/progress/progress.ts';
import { percentile, spreadOf, weightedMean } from '../../../src/domain/progress/spread.ts';
import type { LabResult } from '../../../src/domain/samples/lab-result.ts';

const rules = { rounding: 'half-up', decimals: new Map() } as const;

function result(
  sample: string,
  dryMatter: string,
  starch: string,
  basis: LabResult['basis'] = 'dry-matter',
): LabResult {
  return { sample, basis, dryMatter: decimal(dryMatter), reported: ['starch'], figures: [decimal(starch)] };
}

function load(at: string, pounds: number, of?: LabResult, value?: bigint): CountedLoad {
  return {
    load: {
      ticket: at,
      deliveredAt: 0,
      deliveredOn: at.slice(0, 10) as LocalDate,
      unit: 'lb',
      gross: whole(pounds + 30_000),
      tare: whole(30_000),
      net: whole(pounds),
      netPounds: whole(pounds),
    },
    result: of,
    rules,
    deliveredAt: at,
    value,
  };
}

describe('means', () => {
  // 40,000 lb at 72 % dry matter are 28,800 lb dry; 20,000 lb at 65 % are 13,000. (28,800 × 70 + 13,000 × 74) ÷ 41,800
  // = 71.2440…; the plain mean of 70 and 74 is 72 (computed by hand in exact fractions).
  const two = [
    load('2026-09-14 08:00', 40_000, result('A', '72', '70')),
    load('2026-09-14 09:00', 20_000, result('B', '65', '74')),
  ];

  test('of starch are weighted by dry matter', () => {
    const starch = testProgress(two).find(({ measure }) => measure === 'starch');
    expect(starch && printDecimal(starch.mean, 3)).toBe('71.244');
    expect(starch?.weightedBy).toBe('dry-matter');
    expect(starch && printDecimal(starch.mean, 3)).not.toBe('72');
    expect(starch?.mean.n === undefined ? undefined : (starch.mean.n * 4180n) / starch.mean.d).toBe(297_800n);
  });

  test('of dry matter are weighted by the weight as delivered: all dry pounds over all pounds', () => {
    const dryMatter = testProgress(two).find(({ measure }) => measure === 'dry-matter');
    // 41,800 ÷ 60,000 = 69.666… %; the plain mean is 68.5, and weighted by dry matter it would be 69.8.
    expect(dryMatter && printDecimal(dryMatter.mean, 3)).toBe('69.667');
    expect(dryMatter?.weightedBy).toBe('as-fed');
  });

  test('take as-fed figures on dry matter', () => {
    // 50.4 % as-fed at 72 % dry matter is 70 % of dry matter.
    const [first] = testProgress([
      load('2026-09-14 08:00', 40_000, result('A', '72', '50.4', 'as-fed')),
    ]).filter(({ measure }) => measure === 'starch');
    expect(first && printDecimal(first.mean)).toBe('70');
  });

  test('of a composite count it for each load that it covers, and once in the spread', () => {
    const composite = result('C', '60', '60');
    const three = [
      load('2026-09-14 08:00', 40_000, composite),
      load('2026-09-14 09:00', 20_000, composite),
      load('2026-09-14 10:00', 30_000, result('D', '70', '50')),
      load('2026-09-14 11:00', 30_000),
    ];
    const starch = testProgress(three).find(({ measure }) => measure === 'starch');
    // 36,000 lb dry at 60 % and 21,000 lb at 50 %: (2,160,000 + 1,050,000) ÷ 57,000 = 56.3157…
    expect(starch && printDecimal(starch.mean, 4)).toBe('56.3158');
    expect(starch?.loads).toBe(3);
    expect(starch?.spread.count).toBe(2);
  });

  test('of nothing are none', () => {
    expect(weightedMean([])).toBeUndefined();
    expect(testProgress([load('2026-09-14 08:00', 40_000)])).toEqual([]);
  });
});

describe('the spread', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods 7.2.6.2, from memory: the 90th percentile of these twelve
  // measurements is at place 0.9 × 13 = 11.7 and comes to 95.19807 (printed as 95.1981).
  const twelve =
    '95.1772 95.1567 95.1937 95.1959 95.1442 95.0610 95.1591 95.1195 95.1065 95.0925 95.1990 95.1682'.split(
      ' ',
    );

  test('is taken at p (n + 1)', () => {
    const sorted = twelve.toSorted().map(decimal);
    expect(printDecimal(percentile(sorted, decimal('0.9')), 4)).toBe('95.1981');
    const spread = spreadOf(twelve.map(decimal));
    expect(spread && printDecimal(spread.least)).toBe('95.061');
    expect(spread && printDecimal(spread.greatest)).toBe('95.199');
    // Between the sixth and the seventh, 95.1567 and 95.1591.
    expect(spread && printDecimal(spread.median)).toBe('95.1579');
  });

  test('of one figure is that figure, and of two never outside of them', () => {
    const one = spreadOf([decimal('54')]);
    expect(
      one &&
        [one.least, one.lowerQuartile, one.median, one.upperQuartile, one.greatest].map((v) =>
          printDecimal(v),
        ),
    ).toEqual(Array(5).fill('54'));
    const two = spreadOf([decimal('56'), decimal('54')]);
    expect(two && [two.lowerQuartile, two.median, two.upperQuartile].map((v) => printDecimal(v))).toEqual([
      '54',
      '55',
      '56',
    ]);
    expect(spreadOf([])).toBeUndefined();
  });
});

test('days have their trucks, weights and value', () => {
  const days = progressByDay([
    load('2026-09-15 06:10', 40_000),
    load('2026-09-14 22:05', 50_000, result('A', '60', '55'), 200_000n),
    load('2026-09-14 21:10', 40_000, result('A', '60', '55'), 150_000n),
    load('2026-09-14 22:50', 30_000),
  ]);
  expect(
    days.map(({ date, loads, first, last, hours, busiest }) => ({
      date,
      loads,
      first,
      last,
      hours,
      busiest,
    })),
  ).toEqual([
    {
      date: '2026-09-14',
      loads: 3,
      first: '21:10',
      last: '22:50',
      hours: 2,
      busiest: { hour: '22', loads: 2 },
    },
    {
      date: '2026-09-15',
      loads: 1,
      first: '06:10',
      last: '06:10',
      hours: 1,
      busiest: { hour: '06', loads: 1 },
    },
  ]);
  const [day] = days;
  expect(day && [day.wet, day.dry, day.untestedWet, day.starch].map((v) => printDecimal(v))).toEqual([
    '120000',
    '54000',
    '30000',
    '29700',
  ]);
  expect(day).toMatchObject({
    value: 350_000n,
    unsettledLoads: 1,
    untestedLoads: 1,
    isStarchKnown: true,
    isNdfKnown: false,
  });
});

describe('against 1,500 short tons as fed within 10 %', () => {
  const committed = {
    amount: whole(1500),
    unit: 'short-ton',
    weight: 'as-fed',
    tolerancePercent: whole(10),
  } as const;
  const delivering = (pounds: number) =>
    againstCommitted(committed, deliveredOf([load('2026-09-14 08:00', pounds)]));

  test.each([
    [2_699_999, 'under'],
    [2_700_000, 'within'],
    [3_300_000, 'within'],
    [3_300_001, 'over'],
  ] as const)('%d lb are %s', (pounds, standing) => {
    expect(delivering(pounds).standing).toBe(standing);
  });

  test('says what remains', () => {
    const half = delivering(1_500_000);
    expect(
      [half.delivered, half.remaining, half.percent, half.least, half.most].map((v) => printDecimal(v)),
    ).toEqual(['750', '750', '50', '1350', '1650']);
    expect(half.uncounted).toBe(0);
  });

  test('dry tons are those of tested loads', () => {
    const dry = againstCommitted(
      { ...committed, weight: 'dry-matter', tolerancePercent: undefined },
      deliveredOf([
        load('2026-09-14 08:00', 2_000_000, result('A', '60', '55')),
        load('2026-09-14 09:00', 40_000),
      ]),
    );
    expect(printDecimal(dry.delivered)).toBe('600');
    expect(dry.uncounted).toBe(1);
    expect(dry.standing).toBe('under');
  });
});
