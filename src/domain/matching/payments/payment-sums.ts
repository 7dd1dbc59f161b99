/**
 * Two payments that the other list has as one sum.
 */
import { inOwnOrder } from '../list-row.ts';
import type { RowPair } from '../pair-up.ts';
import type { Explaining } from './payment-causes.ts';
import { nearestFirst } from './payment-causes.ts';
import { MOST_DAYS } from './payment-cost.ts';
import { distance, type ReadPayment, rowsBy } from './payment-list-row.ts';

interface Sum {
  readonly whole: ReadPayment;
  readonly parts: readonly [ReadPayment, ReadPayment];
}

/**
 * Pairs each row without a partner that is exactly two of the other list with the larger of these. Only where it is no
 * other two, and none of the three stands in another sum: of several ways none is taken.
 */
export function sumPairs({
  mine,
  record,
}: {
  readonly mine: readonly ReadPayment[];
  readonly record: readonly ReadPayment[];
}): RowPair<ReadPayment>[] {
  const sums = [...sumsOf(mine, record), ...sumsOf(record, mine)];
  const times = new Map<ReadPayment, number>();
  for (const { whole, parts } of sums)
    for (const row of [whole, ...parts]) times.set(row, (times.get(row) ?? 0) + 1);
  return sums.flatMap(({ whole, parts }): RowPair<ReadPayment>[] => {
    if ([whole, ...parts].some((row) => times.get(row) !== 1)) return [];
    const [first, second] = inOwnOrder(parts);
    if (!first || !second) return [];
    const larger = distance(second.units, 0n) > distance(first.units, 0n) ? second : first;
    return [whole.side === 'mine' ? [whole, larger] : [larger, whole]];
  });
}

function sumsOf(wholes: readonly ReadPayment[], rows: readonly ReadPayment[]): Sum[] {
  const byUnits = rowsBy(rows, ({ units }) => String(units));
  const placeOf = new Map(rows.map((row, place) => [row, place]));
  return wholes.flatMap((whole) =>
    rows.flatMap((one, place): Sum[] => {
      if (!isNear(whole, one) || whole.units > 0n !== one.units > 0n) return [];
      const rest = whole.units - one.units;
      const seconds = rest > 0n === one.units > 0n ? (byUnits.get(String(rest)) ?? []) : [];
      return seconds
        .filter((other) => (placeOf.get(other) ?? 0) > place && isNear(whole, other))
        .map((other) => ({ whole, parts: [one, other] }));
    }),
  );
}

function isNear(a: ReadPayment, b: ReadPayment): boolean {
  return Math.abs(a.day - b.day) <= MOST_DAYS;
}

/** Finds rows of an amount among those without a partner: of the same list as another and about its day, nearest first. */
export function aloneBy(rows: readonly ReadPayment[]): NonNullable<Explaining['aloneWith']> {
  const byUnits = rowsBy(rows, ({ side, units }) => `${side} ${units}`);
  return ({ beside, units }) => {
    const found = byUnits.get(`${beside.side} ${units}`) ?? [];
    return nearestFirst(
      found.filter((row) => isNear(row, beside)),
      beside,
    );
  };
}
