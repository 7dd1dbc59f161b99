/**
 * Days from delivery to the price, the invoice and the money, by figures that were worked by hand.
 */
import { describe, expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import { printDecimal } from '../../../src/domain/numbers/printing.ts';
import { daysOfLoads, daysOfMoney, type PayableDocument } from '../../../src/domain/season/days-to-money.ts';

const day = (text: string) => text as LocalDate;

test('each load counts once until its price and its invoice', () => {
  const load = (ticket: string, deliveredOn: string, settledOn: string, invoicedOn?: string) => ({
    loadId: ticket,
    ticket,
    deliveredOn: day(deliveredOn),
    settledOn: day(settledOn),
    invoicedOn: invoicedOn === undefined ? undefined : day(invoicedOn),
  });
  const { settlement, invoice, notInvoiced } = daysOfLoads([
    load('1', '2026-09-08', '2026-09-11', '2026-09-14'),
    load('2', '2026-09-09', '2026-09-11', '2026-09-14'),
    load('3', '2026-09-28', '2026-10-05', '2026-10-05'),
    load('4', '2026-09-28', '2026-10-05'),
  ]);
  // 3, 2, 7 and 7 days: half way between 3 and 7. Load 3 came before load 4 and waited as long.
  expect(settlement).toMatchObject({ loads: 4, longest: 7, longestTicket: '3' });
  expect(settlement && printDecimal(settlement.median)).toBe('5');
  // 6, 5 and 7.
  expect(invoice).toMatchObject({ loads: 3, longest: 7, longestTicket: '3' });
  expect(invoice && printDecimal(invoice.median)).toBe('6');
  expect(notInvoiced).toBe(1);
});

describe('money', () => {
  const document = (
    id: string,
    loads: readonly (readonly [string, bigint])[],
    left: Partial<Pick<PayableDocument, 'open' | 'held'>> = {},
  ): PayableDocument => ({
    id,
    open: 0n,
    held: 0n,
    ...left,
    loads: loads.map(([deliveredOn, amount]) => ({ deliveredOn: day(deliveredOn), amount })),
  });
  const used = (documentId: string, on: string, amount: bigint) => ({ documentId, on: day(on), amount });

  test('counts by its amount, not by the document', () => {
    const { paid, median, longest } = daysOfMoney(
      [document('small', [['2026-09-01', 10_000n]]), document('large', [['2026-09-01', 30_000n]])],
      [used('small', '2026-09-11', 10_000n), used('large', '2026-10-01', 30_000n)],
    );
    expect({ paid, median, longest }).toEqual({ paid: 40_000n, median: 30, longest: 30 });
  });

  test('is of each load for what the load brings, in parts as it comes', () => {
    const { paid, median, longest } = daysOfMoney(
      [
        document('invoice', [
          ['2026-09-01', 30_000n],
          ['2026-09-06', 10_000n],
        ]),
      ],
      // 200.00 on 11 September: 150.00 after 10 days, 50.00 after 5. 200.00 on 21 September: after 20 and 15.
      [used('invoice', '2026-09-11', 20_000n), used('invoice', '2026-09-21', 20_000n)],
    );
    // 50.00 by 5 days, 200.00 by 10: half.
    expect({ paid, median, longest }).toEqual({ paid: 40_000n, median: 10, longest: 20 });
  });

  test('loses no cent to thirds', () => {
    const thirds = document('thirds', [
      ['2026-09-01', 1n],
      ['2026-09-02', 1n],
      ['2026-09-03', 1n],
    ]);
    const { paid, median } = daysOfMoney([thirds], [used('thirds', '2026-09-11', 10_000n)]);
    // 33.33 after 8 days, 33.33 after 9 and 33.34 after 10.
    expect({ paid, median }).toEqual({ paid: 10_000n, median: 9 });
  });

  test('that has not come is told apart', () => {
    const { median, longest, unpaid, paid } = daysOfMoney(
      [
        document('part', [['2026-09-01', 10_000n]], { open: 6_000n, held: 1_000n }),
        document('none', [['2026-09-01', 5_000n]], { open: 5_000n }),
        document('lowered', [['2026-09-01', -500n]]),
      ],
      [
        used('part', '2026-09-05', 4_000n),
        used('lowered', '2026-12-05', 4_000n),
        used('fee', '2026-12-05', 1n),
      ],
    );
    expect({ median, longest, paid }).toEqual({ median: 4, longest: 4, paid: 4_000n });
    expect(unpaid).toEqual({ documents: 2, open: 11_000n, held: 1_000n });
  });

  test('is no number of days where none has come', () => {
    expect(daysOfMoney([], [])).toMatchObject({ paid: 0n, median: undefined, longest: undefined });
  });
});
