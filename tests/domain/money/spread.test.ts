/**
 * Money spread over documents: what each takes, what is held back from it, and what stays on account.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { type DiscountRule, type Spread, spreadOver } from '../../../src/domain/money/spread.ts';
import type { StandingDocument } from '../../../src/domain/money/standing.ts';

const MONEY = { currency: 'USD', decimals: 2, rounding: 'half-up' } as const;

function document(serial: number, over: Partial<StandingDocument> = {}): StandingDocument {
  const open = over.open ?? 10_000n;
  return {
    id: `d${serial}`,
    kind: 'invoice',
    serial,
    issuedOn: '2026-09-01' as LocalDate,
    dueOn: '2026-09-15' as LocalDate,
    payable: open,
    correctsId: null,
    open,
    held: 0n,
    credited: 0n,
    ...over,
  };
}

function spread(
  documents: readonly StandingDocument[],
  how: Spread | Spread['kind'],
  amount: bigint,
  more: { paidOn?: string; discount?: DiscountRule } = {},
): readonly string[] {
  const wanted: Spread = typeof how === 'string' ? ({ kind: how } as Spread) : how;
  const paid = {
    amount,
    paidOn: (more.paidOn ?? '2026-09-10') as LocalDate,
    discount: more.discount,
    money: MONEY,
  };
  return spreadOver(documents, wanted, paid).map(
    ({ documentId, amount: given, discount }) =>
      `${documentId} ${given}${discount > 0n ? ` saved ${discount}` : ''}`,
  );
}

describe('oldest first', () => {
  test('goes by due date, then by number', () => {
    const documents = [
      document(3, { dueOn: '2026-09-20' as LocalDate }),
      document(2),
      document(1, { dueOn: '2026-09-20' as LocalDate }),
    ];
    expect(spread(documents, 'oldest-first', 25_000n)).toEqual(['d2 10000', 'd1 10000', 'd3 5000']);
  });

  test('passes by what is held, and leaves the rest to the account', () => {
    const documents = [document(1, { held: 2_500n }), document(2, { open: 4_000n, held: 4_000n })];
    expect(spread(documents, 'oldest-first', 99_999n)).toEqual(['d1 7500']);
  });
});

describe('in proportion', () => {
  test('100.00 over three equal invoices is 33.34, 33.33 and 33.33', () => {
    const documents = [document(1), document(2), document(3)];
    expect(spread(documents, 'in-proportion', 10_000n)).toEqual(['d1 3334', 'd2 3333', 'd3 3333']);
  });

  test('pays all where there is enough', () => {
    expect(spread([document(1), document(2)], 'in-proportion', 30_000n)).toEqual(['d1 10000', 'd2 10000']);
  });
});

describe('as said', () => {
  test('gives each what is said, at most what is due', () => {
    const parts = [
      { documentId: 'd2', amount: 4_000n },
      { documentId: 'd1', amount: 99_999n },
      { documentId: 'gone', amount: 1n },
    ];
    expect(spread([document(1), document(2)], { kind: 'as-said', parts }, 12_000n)).toEqual([
      'd2 4000',
      'd1 8000',
    ]);
  });
});

describe('the discount for paying early', () => {
  const discount = { percent: '2', withinDays: '9' };

  test('is earned through its last day, by paying an invoice in full', () => {
    const full = [document(1)];
    expect(spread(full, 'oldest-first', 9_800n, { discount, paidOn: '2026-09-10' })).toEqual([
      'd1 9800 saved 200',
    ]);
    expect(spread(full, 'oldest-first', 9_799n, { discount, paidOn: '2026-09-10' })).toEqual(['d1 9799']);
    expect(spread(full, 'oldest-first', 9_800n, { discount, paidOn: '2026-09-11' })).toEqual(['d1 9800']);
  });

  test('is of what was owed, credits off, and rounded once: 2 % of 99.75 is 1.995, so 2.00', () => {
    const credited = [document(1, { payable: 10_000n, credited: 25n, open: 9_975n })];
    expect(spread(credited, 'oldest-first', 9_775n, { discount })).toEqual(['d1 9775 saved 200']);
  });

  test('is not for what is questioned, nor for what is no invoice', () => {
    expect(spread([document(1, { held: 1n })], 'oldest-first', 9_999n, { discount })).toEqual(['d1 9999']);
    expect(spread([document(1, { kind: 'interest' })], 'oldest-first', 9_999n, { discount })).toEqual([
      'd1 9999',
    ]);
  });
});

function least(a: bigint, b: bigint): bigint {
  if (a < b) return a;
  return b;
}

test('never gives more than there is, nor more than is due of any document', () => {
  const some = fc.array(
    fc.record({
      open: fc.bigInt(1n, 100_000n),
      held: fc.bigInt(0n, 100_000n),
      day: fc.integer({ min: 10, max: 28 }),
    }),
    { maxLength: 8 },
  );
  const how = fc.constantFrom<Spread['kind']>('oldest-first', 'in-proportion');
  fc.assert(
    fc.property(some, how, fc.bigInt(1n, 500_000n), fc.boolean(), (rows, kind, amount, early) => {
      const documents = rows.map(({ open, held, day }, index) =>
        document(index + 1, { open, held: least(held, open), dueOn: `2026-09-${day}` as LocalDate }),
      );
      const given = spreadOver(documents, { kind } as Spread, {
        amount,
        paidOn: '2026-09-05' as LocalDate,
        discount: early ? { percent: '1.5', withinDays: '10' } : undefined,
        money: MONEY,
      });
      const sum = given.reduce((total, part) => total + part.amount, 0n);
      const due = documents.reduce((total, { open, held }) => total + open - held, 0n);
      const saved = given.reduce((total, { discount }) => total + discount, 0n);
      expect(sum <= amount).toBe(true);
      // All of it is used as long as something is due.
      expect(sum).toBe(least(amount, due - saved));
      for (const part of given) {
        const of = documents.find(({ id }) => id === part.documentId);
        expect(part.amount + part.discount <= (of ? of.open - of.held : 0n)).toBe(true);
      }
    }),
  );
});
