/**
 * Interest on one document that was due on 2026-04-01, with the figures worked out by hand: at 6.5 % by actual/360 a
 * dollar bears 0.065 ÷ 360 a day, at 12 % exactly 1 ÷ 3000.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import type { DayCount } from '../../../src/domain/money/day-count.ts';
import { type Interest, interestOn } from '../../../src/domain/money/interest.ts';
import { decimal } from '../../../src/domain/numbers/exact.ts';
import type { Money } from '../../../src/domain/settlement/line.ts';

const DOLLARS: Money = { currency: 'USD', decimals: 2, rounding: 'half-up' };
const DUE = '2026-04-01';

interface Late {
  /** What changes, by its date: minor units. */
  readonly changes: readonly (readonly [on: string, change: bigint])[];
  readonly through: string;
  readonly dueOn?: string;
  readonly rate?: string;
  readonly dayCount?: DayCount;
  readonly money?: Money;
}

function interest(late: Late): Interest {
  const { changes, through, dueOn = DUE, rate = '6.5', dayCount = 'actual/360', money = DOLLARS } = late;
  return interestOn(
    {
      dueOn: dueOn as LocalDate,
      changes: changes.map(([on, change]) => ({ on: on as LocalDate, change })),
      through: through as LocalDate,
    },
    { percentPerYear: decimal(rate), dayCount },
    money,
  );
}

const amountOf = (late: Late) => interest(late).amount;
const INVOICE = ['2026-03-12', 150000n] as const;

describe('what is late', () => {
  test('bears from the day after it was due through the day that it is paid', () => {
    const { amount, spells, how } = interest({ changes: [INVOICE], through: '2026-04-11' });
    expect(amount).toBe(271n);
    expect(spells).toEqual([{ principal: 150000n, from: DUE, through: '2026-04-11', days: 10 }]);
    expect(how).toBe('1500.00 × 10 days (2026-04-02 through 2026-04-11) × 6.5 % ÷ 360');
  });

  test('is a day late on the first day after, and not on the due date', () => {
    expect(amountOf({ changes: [INVOICE], through: '2026-04-02' })).toBe(27n);
    expect(interest({ changes: [INVOICE], through: '2026-04-02' }).how).toContain('× 1 day (2026-04-02');
    for (const through of [DUE, '2026-03-20']) {
      expect(interest({ changes: [INVOICE], through })).toEqual({
        amount: 0n,
        spells: [],
        how: 'nothing was late',
      });
    }
  });

  test('is what was left of it at the due date, whenever the rest was paid before', () => {
    for (const on of ['2026-03-12', '2026-03-31', DUE]) {
      // 500.00 for 10 days: 0.9028.
      expect(amountOf({ changes: [INVOICE, [on, -100000n]], through: '2026-04-11' })).toBe(90n);
      expect(amountOf({ changes: [INVOICE, [on, -150000n]], through: '2026-04-11' })).toBe(0n);
    }
  });

  test('by actual/365 and in a leap year is divided by 365 still', () => {
    const leap = { dueOn: '2028-02-01', changes: [['2028-01-01', 36500n]] as const, rate: '10' };
    expect(amountOf({ ...leap, through: '2028-03-01', dayCount: 'actual/365' })).toBe(290n);
    expect(amountOf({ ...leap, through: '2028-03-01', dayCount: '30/360' })).toBe(304n);
  });
});

describe('partial payments', () => {
  const changes = [INVOICE, ['2026-04-06', -50000n], ['2026-04-11', -100000n]] as const;

  test('split the time into spells, each with what was owed in it', () => {
    const { amount, spells, how } = interest({ changes, through: '2026-05-31' });
    // (1500 × 5 + 1000 × 5) × 0.065 ÷ 360 = 2.2569
    expect(amount).toBe(226n);
    expect(spells).toEqual([
      { principal: 150000n, from: DUE, through: '2026-04-06', days: 5 },
      { principal: 100000n, from: '2026-04-06', through: '2026-04-11', days: 5 },
    ]);
    expect(how).toBe(
      '(1500.00 × 5 days (2026-04-02 through 2026-04-06) + 1000.00 × 5 days (2026-04-07 through 2026-04-11)) × 6.5 % ÷ 360',
    );
  });

  test('count in whatever order they are told, and not once they come too late', () => {
    expect(interest({ changes: changes.toReversed(), through: '2026-05-31' })).toEqual(
      interest({ changes, through: '2026-05-31' }),
    );
    // 1500 × 5 + 1000 × 2 by the 8th; the payment of the 11th is not known yet.
    expect(amountOf({ changes, through: '2026-04-08' })).toBe(172n);
  });

  test('of one day count together', () => {
    const twice = [INVOICE, ['2026-04-06', -20000n], ['2026-04-06', -30000n], changes[2]] as const;
    expect(interest({ changes: twice, through: '2026-05-31' })).toEqual(
      interest({ changes, through: '2026-05-31' }),
    );
  });

  test('that the bank gives back leave the days between out', () => {
    const back = [INVOICE, ['2026-04-06', -150000n], ['2026-04-09', 150000n]] as const;
    const { amount, spells } = interest({ changes: back, through: '2026-04-11' });
    expect(spells.map(({ days }) => days)).toEqual([5, 2]);
    expect(amount).toBe(190n); // 1500 × 7 × 0.065 ÷ 360 = 1.8958
  });

  test('and what comes to nothing within a day end no spell, also by 30/360', () => {
    const whole = { dueOn: '2026-01-15', through: '2026-03-31', rate: '12', dayCount: '30/360' } as const;
    const owed = ['2026-01-02', 30000n] as const;
    const undone = [owed, ['2026-01-30', -1000n], ['2026-01-30', 1000n]] as const;
    expect(interest({ ...whole, changes: undone })).toEqual(interest({ ...whole, changes: [owed] }));
    expect(amountOf({ ...whole, changes: undone })).toBe(760n); // 300 × 76 ÷ 3000
  });
});

test('a time in which more was paid than owed bears none, and does not lower the rest', () => {
  const changes = [INVOICE, ['2026-04-06', -200000n], ['2026-04-11', 60000n]] as const;
  const { amount, spells } = interest({ changes, through: '2026-04-21' });
  expect(spells.map(({ principal, days }) => [principal, days])).toEqual([
    [150000n, 5],
    [10000n, 10],
  ]);
  expect(amount).toBe(153n); // (1500 × 5 + 100 × 10) × 0.065 ÷ 360 = 1.5347
});

describe('rounding', () => {
  test('is once for a document, not for each spell', () => {
    // 12.00, 12.01 and 12.02 for a day each: 0.4, 0.4003 and 0.4007 cents, together 1.201.
    const changes = [
      ['2026-03-12', 1200n],
      ['2026-04-02', 1n],
      ['2026-04-03', 1n],
    ] as const;
    const { amount, spells } = interest({ changes, through: '2026-04-04', rate: '12' });
    expect(spells.map(({ principal }) => principal)).toEqual([1200n, 1201n, 1202n]);
    expect(amount).toBe(1n);
    expect(amountOf({ changes: [['2026-03-12', 1200n]], through: '2026-04-02', rate: '12' })).toBe(0n);
  });

  test.each([
    ['half-up', 1500n, 1n],
    ['half-even', 1500n, 0n],
    ['half-up', 4500n, 2n],
    ['half-even', 4500n, 2n],
    ['half-even', 7500n, 2n],
    ['half-even', 7501n, 3n],
  ] as const)('%s of %i ÷ 3000 cents is %i', (rounding, principal, expected) => {
    const late = { changes: [['2026-03-12', principal]] as const, through: '2026-04-02', rate: '12' };
    expect(amountOf({ ...late, money: { ...DOLLARS, rounding } })).toBe(expected);
  });

  test('is to the currency’s own unit', () => {
    const late = { changes: [['2026-03-12', 150000n]] as const, through: '2026-04-11' };
    const yen = interest({ ...late, money: { currency: 'JPY', decimals: 0, rounding: 'half-up' } });
    expect(yen.amount).toBe(271n);
    expect(yen.how).toContain('150000 × 10 days');
    const dinars = interest({ ...late, money: { currency: 'KWD', decimals: 3, rounding: 'half-up' } });
    expect(dinars.how).toContain('150.000 × 10 days');
  });
});
