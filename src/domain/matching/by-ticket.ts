/**
 * The first pass: rows that have the same number on their ticket. Where a number stands more often than once in a list,
 * the rows that fit each other best are partners.
 */

import { dateCauses } from './causes/other-causes.ts';
import type { Tares } from './causes/tares.ts';
import { weightCauses } from './causes/weight-causes.ts';
import { isSameWeight, type Sides } from './differences.ts';
import type { ReadRow } from './list-row.ts';
import { isWithin, type Tolerance } from './pair-cost.ts';
import { type Bounds, pairUp, type RowPair } from './pair-up.ts';

/** Past so many rows of one list a text is no number: "none", or a field that everybody fills alike. */
export const MOST_OF_ONE_NUMBER = 8;

export interface ByTicket {
  /** Their numbers agree, and their weights do too, nearly do, or differ by what explains them. */
  readonly firm: readonly RowPair[];
  /** Only their numbers agree: the rows may belong to others, and are paired if none is found. */
  readonly numberOnly: readonly RowPair[];
  /** Whether the two lists number loads alike: at least half of the rows that have a number found their partner by it. */
  readonly isNumberedAlike: boolean;
}

/** A row's number, or null where it has none that tells loads apart. */
export type NumberOf = (row: ReadRow) => string | null;

/** Reads numbers of both lists, those that stand too often left out. */
export function numbersOf(mine: readonly ReadRow[], record: readonly ReadRow[]): NumberOf {
  const tooOften = new Set<string>();
  for (const list of [mine, record]) {
    const count = new Map<string, number>();
    for (const { ticket } of list) {
      if (ticket === null) continue;
      const times = (count.get(ticket) ?? 0) + 1;
      count.set(ticket, times);
      if (times > MOST_OF_ONE_NUMBER) tooOften.add(ticket);
    }
  }
  return ({ ticket }) => (ticket === null || tooOften.has(ticket) ? null : ticket);
}

/** Pairs of rows with one number, each row in at most one. */
export function pairByTicket(
  mine: readonly ReadRow[],
  record: readonly ReadRow[],
  known: { readonly numberOf: NumberOf; readonly tares: Tares; readonly tolerance: Tolerance },
): ByTicket {
  const ours = byNumber(mine, known.numberOf);
  const theirs = byNumber(record, known.numberOf);
  const firm: RowPair[] = [];
  const numberOnly: RowPair[] = [];
  for (const [number, rows] of ours) {
    const others = theirs.get(number);
    if (!others) continue;
    for (const pair of within(rows, others)) {
      (isFirm({ mine: pair[0], record: pair[1] }, known) ? firm : numberOnly).push(pair);
    }
  }
  const numbered = Math.min(countOf(ours), countOf(theirs));
  if (2 * firm.length >= numbered) return { firm, numberOnly, isNumberedAlike: true };
  // Numbers that mean something else meet by chance: only the weight and the day can then say that it was none.
  const isSure = ([a, b]: RowPair) =>
    isSameWeight(a, b) && Math.abs(a.day - b.day) <= 1 && !isOtherTruck(a, b);
  const isLikely = ([a, b]: RowPair) => Math.abs(a.day - b.day) <= 1 && !isOtherTruck(a, b);
  const unsure = [...firm.filter((pair) => !isSure(pair)), ...numberOnly].filter(isLikely);
  return { firm: firm.filter(isSure), numberOnly: unsure, isNumberedAlike: false };
}

function byNumber(rows: readonly ReadRow[], numberOf: NumberOf): Map<string, ReadRow[]> {
  const groups = new Map<string, ReadRow[]>();
  for (const row of rows) {
    const number = numberOf(row);
    if (number === null) continue;
    const group = groups.get(number);
    if (group) group.push(row);
    else groups.set(number, [row]);
  }
  return groups;
}

function countOf(groups: ReadonlyMap<string, readonly ReadRow[]>): number {
  let count = 0;
  for (const rows of groups.values()) count += rows.length;
  return count;
}

function within(mine: readonly ReadRow[], record: readonly ReadRow[]): readonly RowPair[] {
  const [one, other] = [mine[0], record[0]];
  if (mine.length === 1 && record.length === 1 && one && other) return [[one, other]];
  return pairUp({ mine, record, cost: fitCost, alone: ALONE, bounds: NO_BOUNDS }) ?? [];
}

/** At most `MOST_OF_ONE_NUMBER` rows of each list. */
const NO_BOUNDS: Bounds = { pairs: Number.POSITIVE_INFINITY, steps: Number.POSITIVE_INFINITY };

const ALONE = 100_000;
const OTHER_WEIGHT = 1000;
const OTHER_TRUCK = 500;
const MOST_DAYS = 400;

/** Rows of one number: the weight tells most, then the truck, the day, the money. */
function fitCost(a: ReadRow, b: ReadRow): number {
  const apart = Math.min(Math.abs(a.thousandths - b.thousandths) / 1_000_000, 1000);
  return (
    (isSameWeight(a, b) ? 0 : OTHER_WEIGHT + Math.floor(apart)) +
    (isOtherTruck(a, b) ? OTHER_TRUCK : 0) +
    Math.min(Math.abs(a.day - b.day), MOST_DAYS) +
    (a.row.amount === b.row.amount ? 0 : 1) +
    (a.content === b.content ? 0 : 1)
  );
}

function isOtherTruck(a: ReadRow, b: ReadRow): boolean {
  return a.truck !== null && b.truck !== null && a.truck !== b.truck;
}

function isFirm(
  sides: Sides,
  { tares, tolerance }: { readonly tares: Tares; readonly tolerance: Tolerance },
): boolean {
  const { mine, record } = sides;
  if (isSameWeight(mine, record)) return true;
  const isDayKnown = Math.abs(mine.day - record.day) <= 1 || dateCauses(sides).length > 0;
  if (!isDayKnown || isOtherTruck(mine, record)) return false;
  return isWithin(mine, record, tolerance) || weightCauses(sides, tares).length > 0;
}
