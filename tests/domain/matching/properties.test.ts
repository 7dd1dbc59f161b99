import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { LocalDate } from '../../../src/domain/dates/local-date.ts';
import type { Cause } from '../../../src/domain/matching/causes/cause.ts';
import type { Difference } from '../../../src/domain/matching/differences.ts';
import { type ListRow, type ListSide, otherSide, readList } from '../../../src/domain/matching/list-row.ts';
import { matchLists, type Outcome } from '../../../src/domain/matching/match-lists.ts';
import { ALONE, pairCost, USUAL_TOLERANCE } from '../../../src/domain/matching/pair-cost.ts';

/** Few values of everything, so that rows meet in every way: twice, under a wrong number, without one, a day off. */
const rowFields = fc.record({
  ticket: fc.constantFrom(null, '101', '0101', '110', '102', '1O2', '7', 'T-12', 't12'),
  day: fc.constantFrom('03', '04', '05', '06'),
  truck: fc.constantFrom(null, 'A', 'B'),
  net: fc.constantFrom('47120', '47120.0', '47140', '47210', '47220', '41720', '21373', '60000'),
  tare: fc.constantFrom(null, '31100', '31300'),
  unit: fc.constantFrom('lb' as const, 'lb' as const, 'kg' as const),
  amount: fc.constantFrom(null, '1986.85', '1968.85', '1986.86'),
  dryMatter: fc.constantFrom(null, '59.2', '95.2'),
});

function rowsFrom(fields: readonly Fields[], mark: string) {
  return fields.map(
    ({ day, net, tare, ...rest }, index): ListRow => ({
      ...rest,
      id: `${mark}${index}`,
      deliveredOn: `2026-09-${day}` as LocalDate,
      // Often one gross, so that a tare makes the difference.
      net: tare !== null && index % 2 === 0 ? String(78220 - Number(tare)) : net,
      tare,
      gross: tare === null ? null : index % 2 === 0 ? '78220' : String(Number(tare) + Number(net)),
    }),
  );
}

type Fields = Pick<ListRow, 'ticket' | 'truck' | 'net' | 'tare' | 'unit' | 'amount' | 'dryMatter'> & {
  readonly day: string;
};

/** Many rows that nothing tells apart. */
const alikeFields = fc.record({
  ticket: fc.constantFrom(null, null, '101', '110'),
  day: fc.constantFrom('03', '04'),
  truck: fc.constant(null),
  net: fc.constantFrom('47120', '47140', '47160'),
  tare: fc.constant(null),
  unit: fc.constant('lb' as const),
  amount: fc.constant(null),
  dryMatter: fc.constant(null),
});
const someFields = (maxLength: number): fc.Arbitrary<readonly Fields[]> =>
  fc.oneof(fc.array(rowFields, { maxLength }), fc.array(alikeFields, { maxLength }));

const lists = fc
  .record({
    mine: someFields(12),
    record: someFields(12),
    isNamedAlike: fc.boolean(),
  })
  .map(({ mine, record, isNamedAlike }) => ({
    mine: rowsFrom(mine, 'm'),
    record: rowsFrom(record, isNamedAlike ? 'm' : 'r'),
  }));

const SETTINGS = { decimals: 2 };
const RUNS = { numRuns: 2000 };

function text(outcome: Outcome): string {
  return outcome.kind === 'pair'
    ? JSON.stringify({ ...outcome, mine: outcome.mine.id, record: outcome.record.id })
    : JSON.stringify({ ...outcome, row: outcome.row.id });
}

test('the order of rows does not matter', () => {
  fc.assert(
    fc.property(lists, fc.integer(), ({ mine, record }, seed) => {
      const shuffled = (rows: readonly ListRow[]) =>
        rows
          .map((row, index) => ({ row, key: Math.imul(index + 1, seed | 1) ^ (seed >> 3) }))
          .sort((a, b) => a.key - b.key)
          .map(({ row }) => row);
      const first = matchLists({ mine, record }, SETTINGS).map(text).sort();
      const second = matchLists({ mine: shuffled(mine), record: shuffled(record) }, SETTINGS);
      expect(second.map(text).sort()).toEqual(first);
    }),
    RUNS,
  );
});

test('each row ends in exactly one way', () => {
  fc.assert(
    fc.property(lists, ({ mine, record }) => {
      const outcomes = matchLists({ mine, record }, SETTINGS);
      const rowsIn = (side: ListSide) =>
        outcomes.flatMap((outcome) =>
          outcome.kind === 'pair' ? [outcome[side]] : outcome.in === side ? [outcome.row] : [],
        );
      expect(
        rowsIn('mine')
          .map(({ id }) => id)
          .sort(),
      ).toEqual(mine.map(({ id }) => id).sort());
      expect(
        rowsIn('record')
          .map(({ id }) => id)
          .sort(),
      ).toEqual(record.map(({ id }) => id).sort());
      for (const outcome of outcomes) {
        if (outcome.kind === 'twice') expect(outcome.of).not.toBe(outcome.row.id);
      }
    }),
    RUNS,
  );
});

/** What is said of the lists when they are exchanged. */
function mirrored(outcome: Outcome): Outcome {
  if (outcome.kind !== 'pair') return { ...outcome, in: otherSide(outcome.in) };
  const { mine, record, differences } = outcome;
  return { ...outcome, mine: record, record: mine, differences: differences.map(mirroredDifference) };
}

function mirroredDifference(difference: Difference): Difference {
  const causes = difference.causes.map(mirroredCause);
  switch (difference.aspect) {
    case 'ticket':
      return { ...difference, causes } as Difference;
    case 'date':
      return { ...difference, byDays: -difference.byDays, causes } as Difference;
    default: {
      const by = difference.by.startsWith('-') ? difference.by.slice(1) : `-${difference.by}`;
      return { ...difference, by, causes } as Difference;
    }
  }
}

function mirroredCause({ name, slips }: Cause): Cause {
  const turned = slips.map((slip) => ({
    ...slip,
    by: slip.by === 'either' ? slip.by : otherSide(slip.by),
    ...(slip.load ? { load: { ...slip.load, in: otherSide(slip.load.in) } } : {}),
  }));
  return { name, slips: turned.sort((a, b) => (a.by === 'mine' ? -1 : b.by === 'mine' ? 1 : 0)) };
}

test('exchanging the lists mirrors the outcome', () => {
  fc.assert(
    fc.property(lists, ({ mine, record }) => {
      const one = matchLists({ mine, record }, SETTINGS).map(mirrored).map(text).sort();
      const other = matchLists({ mine: record, record: mine }, SETTINGS).map(text).sort();
      expect(other).toEqual(one);
    }),
    RUNS,
  );
});

test('what has no number is paired at the least cost of all ways', () => {
  fc.assert(
    fc.property(someFields(6), someFields(6), (ours, theirs) => {
      const bare = (rows: ListRow[]) => rows.map((row): ListRow => ({ ...row, ticket: null }));
      const [mine, record] = [bare(rowsFrom(ours, 'm')), bare(rowsFrom(theirs, 'r'))];
      const likening = {
        tolerance: USUAL_TOLERANCE,
        isNumberedAlike: true,
        numberOf: () => null,
        isAnswered: () => false,
      };
      const [left, right] = [readList(mine, 'mine'), readList(record, 'record')];
      const costs = left.map((a) => right.map((b) => pairCost(a, b, likening)));
      for (const [index, row] of costs.entries()) {
        for (const [place, cost] of row.entries()) {
          const [a, b] = [left[index], right[place]];
          expect(a && b && pairCost(b, a, likening)).toBe(cost);
        }
      }
      const partners = new Map<string, string>();
      for (const outcome of matchLists({ mine, record }, SETTINGS)) {
        if (outcome.kind === 'pair') partners.set(outcome.mine.id, outcome.record.id);
      }
      const paid = mine.map((row, index) => {
        const place = record.findIndex(({ id }) => id === partners.get(row.id));
        return place < 0 ? ALONE : (costs[index]?.[place] ?? Number.NaN);
      });
      expect(paid.reduce((sum, cost) => sum + cost, 0)).toBe(cheapest(costs));
    }),
    RUNS,
  );
});

/** Every way there is. */
function cheapest(costs: readonly (readonly (number | undefined)[])[], taken = 0, row = 0): number {
  const own = costs[row];
  if (!own) return 0;
  return own.reduce<number>(
    (best, cost, column) =>
      cost === undefined || (taken & (1 << column)) !== 0
        ? best
        : Math.min(best, cost + cheapest(costs, taken | (1 << column), row + 1)),
    ALONE + cheapest(costs, taken, row + 1),
  );
}
