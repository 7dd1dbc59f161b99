import fc from 'fast-check';
import { expect, test } from 'vitest';
import { matchPayments } from '../../../../src/domain/matching/payments/match-payments.ts';
import type { PaymentListRow } from '../../../../src/domain/matching/payments/payment-list-row.ts';
import { payments, shortly } from './payment-lists.ts';

const RUNS = { numRuns: 2000, seed: 20261128 };

/** Few values of everything, so that rows meet in every way. */
const line = fc
  .record({
    day: fc.constantFrom('09-03', '09-04', '09-09', '03-09', '09-20'),
    amount: fc.constantFrom('500.00', '500', '-500.00', '510.00', '150.00', '1000.00', '1010.00', '660.00'),
    reference: fc.constantFrom('', '', '7', '07', '8', 'ck 9', 'corn'),
  })
  .map(({ day, amount, reference }) => [day, amount, reference.replace(' ', '-')].join(' ').trim());
const KNOWN = [{ because: 'invoice-within', name: 'Invoice 1', amount: '490.00' }] as const;
const lists = fc
  .tuple(fc.array(line, { maxLength: 9 }), fc.array(line, { maxLength: 9 }), fc.boolean())
  .map(([mine, record, isNamedAlike]) => ({
    mine: payments('m', mine),
    record: payments(isNamedAlike ? 'm' : 'r', record).map((row) => ({ ...row, known: KNOWN })),
  }));

const outcomes = (mine: readonly PaymentListRow[], record: readonly PaymentListRow[]) =>
  matchPayments({ mine, record }, { decimals: 2 });

test('the order of rows does not matter', () => {
  fc.assert(
    fc.property(lists, fc.integer(), ({ mine, record }, seed) => {
      const shuffled = (rows: readonly PaymentListRow[]) =>
        rows
          .map((row, index) => ({ row, key: Math.imul(index + 1, seed | 1) ^ (seed >> 3) }))
          .sort((a, b) => a.key - b.key)
          .map(({ row }) => row);
      const sorted = (found: ReturnType<typeof outcomes>) => found.map((one) => JSON.stringify(one)).sort();
      expect(sorted(outcomes(shuffled(mine), shuffled(record)))).toEqual(sorted(outcomes(mine, record)));
    }),
    RUNS,
  );
});

test('exchanging the lists exchanges the sides', () => {
  const side = { mine: 'record', record: 'mine', either: 'either' } as const;
  fc.assert(
    fc.property(lists, ({ mine, record }) => {
      const turned = outcomes(record, mine).map((outcome): typeof outcome => {
        if (outcome.kind !== 'pair') return { ...outcome, in: side[outcome.in] };
        const differences = outcome.differences.map((one) =>
          JSON.parse(
            JSON.stringify({
              ...one,
              ...('by' in one
                ? { by: one.by.startsWith('-') ? one.by.slice(1) : `-${one.by}` }
                : { byDays: -one.byDays }),
              causes: one.causes.map(({ name, slips }) => ({
                name,
                slips: slips
                  .map((slip) => ({
                    ...slip,
                    by: side[slip.by],
                    ...(slip.load ? { load: { ...slip.load, in: side[slip.load.in] } } : {}),
                  }))
                  .sort((a, b) => (a.by < b.by ? -1 : 1)),
              })),
            }),
          ),
        );
        return { ...outcome, mine: outcome.record, record: outcome.mine, differences };
      });
      const sorted = (found: typeof turned) => found.map((one) => JSON.stringify(one)).sort();
      expect(sorted(turned)).toEqual(sorted(outcomes(mine, record)));
    }),
    RUNS,
  );
});

test('every row ends once', () => {
  fc.assert(
    fc.property(lists, ({ mine, record }) => {
      const found = outcomes(mine, record);
      const ended = found.flatMap((one) =>
        one.kind === 'pair'
          ? [`mine ${one.mine.id}`, `record ${one.record.id}`]
          : [`${one.in} ${one.row.id}`],
      );
      expect(ended.sort()).toEqual(
        [...mine.map(({ id }) => `mine ${id}`), ...record.map(({ id }) => `record ${id}`)].sort(),
      );
    }),
    RUNS,
  );
});

test('a list agrees with itself', () => {
  fc.assert(
    fc.property(lists, ({ mine }) => {
      expect(shortly(outcomes(mine, mine)).every((text) => !/only|amount|date|twice/.test(text))).toBe(true);
    }),
    RUNS,
  );
});
