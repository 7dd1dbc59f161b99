/**
 * What a shortfall or a surplus comes to: examples by hand, and every mix of terms against whole numbers that are put
 * together in another way.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decimal, type Exact, multiply, whole } from '../../../src/domain/numbers/exact.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import {
  type SeasonVolume,
  shortfallOf,
  surplusOf,
  type VolumeOutcome,
  type VolumeTerms,
  volumeRange,
} from '../../../src/domain/season-close/volume-rule.ts';
import type { Money } from '../../../src/domain/settlement/line.ts';

const USD: Money = { currency: 'USD', decimals: 2, rounding: 'half-up' };
const TERMS: VolumeTerms = { amount: '1500', unit: 'short-ton', weight: 'as-fed', tolerancePercent: '10' };

/** Short tons, all of them settled for so many cents. */
function season(tons: string, value = 0n): SeasonVolume {
  const pounds = multiply(decimal(tons), whole(2000));
  return { pounds, uncounted: 0, settled: { pounds, value } };
}

function done(worked: VolumeOutcome | 'no-average'): VolumeOutcome {
  if (worked === 'no-average') throw new Error('no average');
  return worked;
}

function shortfall(rule: NonNullable<VolumeTerms['shortfall']>, tons: string, value = 0n) {
  return done(shortfallOf({ ...TERMS, shortfall: rule }, season(tons, value), USD));
}

function surplus(rule: NonNullable<VolumeTerms['surplus']>, tons: string, value = 0n) {
  return done(surplusOf({ ...TERMS, surplus: rule }, season(tons, value), USD));
}

describe('by hand', () => {
  test('50 tons short of the range at 12.00 are 600.00 that the seller owes', () => {
    const outcome = shortfall({ owedBy: 'seller', from: 'range', rate: '12' }, '1300');
    expect(outcome.owed).toBe(-60_000n);
    expect(outcome.how).toBe('range from 1350 − delivered 1300 = 50 short-ton; × −12 = −600 → −600.00 USD');
  });

  test('the buyer that did not take them owes the same', () => {
    expect(shortfall({ owedBy: 'buyer', from: 'range', rate: '12' }, '1300').owed).toBe(60_000n);
  });

  test('counted from the amount they are 200 tons', () => {
    expect(shortfall({ owedBy: 'seller', from: 'amount', rate: '12' }, '1300').owed).toBe(-240_000n);
  });

  test.each(['1350', '1350.01', '1500', '1650', '1700'])(
    'no tons are short of %s, from wherever they are counted',
    (tons) => {
      expect(shortfall({ owedBy: 'seller', from: 'range', rate: '12' }, tons).owed).toBe(0n);
      expect(shortfall({ owedBy: 'seller', from: 'amount', rate: '12' }, tons)).toMatchObject({
        owed: 0n,
        quantity: { n: 0n },
        how: '',
      });
    },
  );

  test('a hundredth of a ton below the range counts all of the range, from the amount', () => {
    expect(shortfall({ owedBy: 'seller', from: 'amount', rate: '12' }, '1349.99').owed).toBe(-180_012n);
  });

  test('5 % of an average of 62.50 is 3.125 a ton', () => {
    // 81,250.00 for 1,300 tons are 62.50 each; 50 × 3.125 = 156.25.
    const outcome = shortfall({ owedBy: 'seller', from: 'range', percentOfAverage: '5' }, '1300', 8_125_000n);
    expect(outcome.owed).toBe(-15_625n);
    expect(outcome.how).toBe(
      'range from 1350 − delivered 1300 = 50 short-ton; × average of the season (81250.00 ÷ 1300 short-ton) × −5 % = −156.25 → −156.25 USD',
    );
  });

  test('nothing has settled: there is no average, and it is asked for only where it counts', () => {
    const rule = { owedBy: 'seller', from: 'range', percentOfAverage: '5' } as const;
    const none = { pounds: whole(0), uncounted: 0, settled: { pounds: whole(0), value: 0n } };
    expect(shortfallOf({ ...TERMS, shortfall: rule }, none, USD)).toBe('no-average');
    const kept = { ...none, pounds: whole(3_000_000) };
    expect(done(shortfallOf({ ...TERMS, shortfall: rule }, kept, USD)).owed).toBe(0n);
    // A rate needs none: nothing came at all, and 1,350 tons are short.
    const byRate = { owedBy: 'seller', from: 'range', rate: '12' } as const;
    expect(done(shortfallOf({ ...TERMS, shortfall: byRate }, none, USD)).owed).toBe(-1_620_000n);
  });

  test('50 tons over at 3.00 taken off are 150.00, and 200 counted from the amount 600.00', () => {
    expect(surplus({ from: 'range', rate: '3' }, '1700').owed).toBe(-15_000n);
    expect(surplus({ from: 'amount', rate: '3' }, '1700').owed).toBe(-60_000n);
    expect(surplus({ from: 'amount', rate: '3' }, '1650').owed).toBe(0n);
  });

  test('a price of its own is the difference to the average, either way', () => {
    // 106,250.00 for 1,700 tons are 62.50 each.
    const lower = surplus({ from: 'range', price: '58' }, '1700', 10_625_000n);
    expect(lower.owed).toBe(-22_500n);
    expect(lower.how).toBe(
      'delivered 1700 − range to 1650 = 50 short-ton; × (58 − average of the season (106250.00 ÷ 1700 short-ton)) = −225 → −225.00 USD',
    );
    expect(surplus({ from: 'range', price: '70' }, '1700', 10_625_000n).owed).toBe(37_500n);
  });

  test('an average that goes on is rounded once, at the end', () => {
    // 100.00 for 3 tons; 1 ton over 2 at half the average: 16.666… is 16.67, where 33.33 halved would be 16.665.
    const terms: VolumeTerms = {
      ...{ amount: '2', unit: 'short-ton', weight: 'as-fed' },
      surplus: { from: 'range', percentOfAverage: '50' },
    };
    const outcome = done(surplusOf(terms, season('3', 10_000n), USD));
    expect(outcome.owed).toBe(-1_667n);
    expect(outcome.how).toContain('= −16.6666666666… → −16.67 USD');
  });

  test('the ends of a range', () => {
    const { least, most } = volumeRange({ ...TERMS, tolerancePercent: '2.5' });
    expect([least, most].map((end) => printDecimal(end))).toEqual(['1462.5', '1537.5']);
  });
});

/** n ÷ d rounded half-up or half-even, as whole numbers alone. */
function rounded(n: bigint, d: bigint, rounding: Money['rounding']): bigint {
  const size = n < 0n ? -n : n;
  const [low, left] = [size / d, size % d];
  const up = 2n * left > d || (2n * left === d && (rounding === 'half-up' || low % 2n === 1n));
  const units = up ? low + 1n : low;
  return n < 0n ? -units : units;
}

const hundredths = (units: bigint) => `${units / 100n}.${String(units % 100n).padStart(2, '0')}`;

const anything = fc.record({
  /** Hundredths of a ton, of a percent, and of money. */
  amount: fc.bigInt({ min: 1n, max: 500_000n }),
  tolerance: fc.bigInt({ min: 0n, max: 9_999n }),
  figure: fc.bigInt({ min: 1n, max: 10_000n }),
  pounds: fc.bigInt({ min: 0n, max: 20_000_000n }),
  settledPounds: fc.bigInt({ min: 1n, max: 20_000_000n }),
  value: fc.bigInt({ min: -1_000_000n, max: 90_000_000n }),
  unit: fc.constantFrom('short-ton' as const, 'tonne' as const),
  from: fc.constantFrom('range' as const, 'amount' as const),
  rounding: fc.constantFrom('half-up' as const, 'half-even' as const),
});

/** Pounds in 10⁸ tons of a unit: 2,000 lb, or 1,000 kg of 1 ÷ 0.45359237 lb, as one fraction. */
const TON = { 'short-ton': [2_000n, 1n], tonne: [100_000_000_000n, 45_359_237n] } as const;

describe('against whole numbers', () => {
  test.each(['rate', 'percentOfAverage', 'price'] as const)('a surplus by its %s', (way) => {
    fc.assert(
      fc.property(anything, (of) => {
        const [top, bottom] = TON[of.unit];
        // Tons as n ÷ d over one denominator: delivered, and the range's end in hundredths of hundredths of percents.
        const d = top * 1_000_000n;
        const delivered = of.pounds * bottom * 1_000_000n;
        const end = of.amount * (10_000n + of.tolerance) * top;
        const over =
          delivered > end ? delivered - (of.from === 'range' ? end : of.amount * 10_000n * top) : 0n;
        // Cents a ton: value ÷ (pounds × bottom ÷ top).
        const [averageN, averageD] = [of.value * top, of.settledPounds * bottom];
        const [rateN, rateD] =
          way === 'rate'
            ? [-of.figure, 1n]
            : way === 'price'
              ? [of.figure * averageD - averageN, averageD]
              : [-averageN * of.figure, averageD * 10_000n];
        const expected = rounded(over * rateN, d * rateD, of.rounding);
        const outcome = done(
          surplusOf(
            { ...termsOf(of), surplus: { from: of.from, [way]: hundredths(of.figure) } },
            seasonOf(of),
            { ...USD, rounding: of.rounding },
          ),
        );
        expect(outcome.owed).toBe(expected);
      }),
      { numRuns: 400 },
    );
  });

  test.each([
    ['rate', 'seller'],
    ['rate', 'buyer'],
    ['percentOfAverage', 'seller'],
    ['percentOfAverage', 'buyer'],
  ] as const)('a shortfall by its %s, owed by the %s', (way, owedBy) => {
    fc.assert(
      fc.property(anything, (of) => {
        const [top, bottom] = TON[of.unit];
        const d = top * 1_000_000n;
        const delivered = of.pounds * bottom * 1_000_000n;
        const end = of.amount * (10_000n - of.tolerance) * top;
        const short =
          delivered < end ? (of.from === 'range' ? end : of.amount * 10_000n * top) - delivered : 0n;
        const sign = owedBy === 'buyer' ? 1n : -1n;
        const [rateN, rateD] =
          way === 'rate'
            ? [sign * of.figure, 1n]
            : [sign * of.value * top * of.figure, of.settledPounds * bottom * 10_000n];
        const outcome = done(
          shortfallOf(
            { ...termsOf(of), shortfall: { owedBy, from: of.from, [way]: hundredths(of.figure) } },
            seasonOf(of),
            { ...USD, rounding: of.rounding },
          ),
        );
        expect(outcome.owed).toBe(rounded(short * rateN, d * rateD, of.rounding));
      }),
      { numRuns: 400 },
    );
  });
});

type Anything = typeof anything extends fc.Arbitrary<infer Of> ? Of : never;

function termsOf({ amount, tolerance, unit }: Anything): VolumeTerms {
  return {
    ...{ amount: hundredths(amount), unit, weight: 'as-fed' },
    ...(tolerance === 0n ? {} : { tolerancePercent: hundredths(tolerance) }),
  };
}

function seasonOf({ pounds, settledPounds, value }: Anything): SeasonVolume {
  const exact = (n: bigint): Exact => ({ n, d: 1n });
  return { pounds: exact(pounds), uncounted: 0, settled: { pounds: exact(settledPounds), value } };
}
