/**
 * How money stands by what was recorded, and how late it is.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { ageing } from '../../../src/domain/money/ageing.ts';
import { type IssuedDocument, type Recorded, standingOf } from '../../../src/domain/money/standing.ts';

const day = (text: string) => text as LocalDate;

function issued(serial: number, payable: bigint, dueOn = '2026-09-30'): IssuedDocument {
  const kind = payable < 0n ? 'credit-note' : 'invoice';
  return {
    id: `d${serial}`,
    kind,
    serial,
    issuedOn: day('2026-09-01'),
    dueOn: day(dueOn),
    payable,
    correctsId: null,
  };
}

const NOTHING: Recorded = { documents: [], payments: [], credits: new Map(), setOffs: [], holds: [] };
const part = (documentId: string, amount: bigint, discount = 0n) => ({ documentId, amount, discount });

describe('a standing', () => {
  test('is what is open less what is on account', () => {
    const standing = standingOf({
      ...NOTHING,
      documents: [issued(1, 10_000n), issued(2, 5_000n)],
      payments: [{ paidOn: day('2026-09-20'), amount: 12_000n, allocated: [part('d1', 9_800n, 200n)] }],
    });
    expect(standing.documents.map(({ open }) => open)).toEqual([0n, 5_000n]);
    expect(standing.onAccount).toBe(2_200n);
    expect(standing.balance).toBe(2_800n);
  });

  test('lets a credit note lower what it corrects, and keeps the rest on account', () => {
    const standing = standingOf({
      ...NOTHING,
      documents: [issued(1, 3_000n), issued(2, -5_000n)],
      credits: new Map([['d2', [part('d1', 3_000n)]]]),
    });
    expect(standing.documents[0]).toMatchObject({ open: 0n, credited: 3_000n });
    expect(standing.onAccount).toBe(2_000n);
    expect(standing.balance).toBe(-2_000n);
  });

  test('takes set-offs and money back from the account, below zero where it has to', () => {
    const standing = standingOf({
      ...NOTHING,
      documents: [issued(1, 3_000n)],
      payments: [{ paidOn: day('2026-09-20'), amount: -500n, allocated: [] }],
      setOffs: [{ on: day('2026-09-21'), allocated: [part('d1', 1_000n)] }],
    });
    expect(standing.onAccount).toBe(-1_500n);
    expect(standing.balance).toBe(3_500n);
  });

  test('holds at most what is open', () => {
    const standing = standingOf({
      ...NOTHING,
      documents: [issued(1, 3_000n)],
      payments: [{ paidOn: day('2026-09-20'), amount: 2_500n, allocated: [part('d1', 2_500n)] }],
      holds: [{ documentId: 'd1', amount: 800n }],
    });
    expect(standing.documents[0]).toMatchObject({ open: 500n, held: 500n });
  });
});

test('ageing goes by days past due, and its parts sum to the balance', () => {
  const standing = standingOf({
    ...NOTHING,
    documents: [
      issued(1, 1n, '2026-12-01'),
      issued(2, 10n, '2026-11-30'),
      issued(3, 100n, '2026-11-01'),
      issued(4, 1_000n, '2026-10-31'),
      issued(5, 10_000n, '2026-10-02'),
      issued(6, 100_000n, '2026-10-01'),
      issued(7, 1_000_000n, '2026-09-02'),
      issued(8, 10_000_000n, '2026-09-01'),
    ],
    payments: [{ paidOn: day('2026-09-20'), amount: 7n, allocated: [] }],
    holds: [{ documentId: 'd8', amount: 3n }],
  });
  const aged = ageing(standing, day('2026-12-01'));
  expect(aged).toEqual({
    notDue: 1n,
    days1to30: 110n,
    days31to60: 11_000n,
    days61to90: 1_100_000n,
    over90: 9_999_997n,
    held: 3n,
    onAccount: -7n,
    total: standing.balance,
  });
  const { total, ...parts } = aged;
  expect(Object.values(parts).reduce((sum, amount) => sum + amount, 0n)).toBe(total);
});
