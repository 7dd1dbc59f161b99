/**
 * The first pass: rows that have the same number on their ticket. Where a number stands more often than once in a list,
 * the rows that fit each other best are partners.
 */

import { dateCauses } from './causes/other-causes.ts';
import type { Tares } from './causes/tares.ts';
import { weightCauses } from './causes/weight-causes.ts';
import { isSameWeight } from './differences.ts';
import type { ReadRow } from './list-row.ts';
import { isWithin, type Tolerance } from './pair-cost.ts';
import { type Bounds, pairUp, type RowPair } from './pair-up.ts';

/** Past so many rows of one list a text is no number: "none", or a field that everybody fills alike. */
export const MOST_OF_ONE_NUMBER = 8;

export interface ByTicket {
  /** Their numbers agree, and their weights do too, nearly do, or differ by what explains them. */
  readonly pairs: readonly RowPair[];
  /** Whether the two lists number loads alike: at least half of the rows that have a number found their partner by it. */
  readonly isNumberedAlike: boolean;
  /** Whether the number of a row stands in the other list. */
  readonly isAnswered: (row: ReadRow) => boolean;
}

/** A row's number, or null where it has none that tells loads apart. */
export type NumberOf = (row: ReadRow) => string | null;

/** The rows of a list by their number. */
type Numbered = ReadonlyMap<string, readonly ReadRow[]>;

/** The numbers of two lists, those left out that stand too often in either. */
export interface Numbers {
  readonly numberOf: NumberOf;
  readonly mine: Numbered;
  readonly record: Numbered;
}

/** Reads the numbers of both lists. */
export function numbersOf(mine: readonly ReadRow[], record: readonly ReadRow[]): Numbers {
  const ours = byNumber(mine, ({ ticket }) => ticket);
  const theirs = byNumber(record, ({ ticket }) => ticket);
  const tooOften = new Set<string>();
  for (const list of [ours, theirs]) {
    for (const [number, rows] of list) if (rows.length > MOST_OF_ONE_NUMBER) tooOften.add(number);
  }
  for (const number of tooOften) {
    ours.delete(number);
    theirs.delete(number);
  }
  const numberOf: NumberOf = ({ ticket }) => (ticket === null || tooOften.has(ticket) ? null : ticket);
  return { numberOf, mine: ours, record: theirs };
}

/** What rows are compared by. */
export interface Known {
  readonly numberOf: NumberOf;
  readonly tares: Tares;
  readonly tolerance: Tolerance;
}

/**
 * Pairs of rows with one number for which something else speaks too, each row in at most one. Numbers of lists that do
 * not number loads alike meet by chance: then only the weight, the day and the truck can say that it was none.
 */
export function pairByTicket({ mine: ours, record: theirs }: Numbers, known: Known): ByTicket {
  const answered = { mine: theirs, record: ours };
  const isAnswered = (row: ReadRow) => answered[row.side].has(known.numberOf(row) ?? '');
  const firm = pairWithin(ours, theirs, { known, may: (a, b) => isFirm(a, b, known) });
  const isNumberedAlike = 2 * firm.length >= Math.min(countOf(ours), countOf(theirs));
  const isSure = ([a, b]: RowPair) => isSameWeight(a, b) && isNear(a, b);
  return { pairs: isNumberedAlike ? firm : firm.filter(isSure), isNumberedAlike, isAnswered };
}

/**
 * Of rows that found no partner otherwise, those that have the same number; where lists do not number loads alike, only
 * those that are of one truck and at most a day apart.
 */
export function pairByNumberAlone(
  left: { readonly mine: readonly ReadRow[]; readonly record: readonly ReadRow[] },
  { isNumberedAlike, ...known }: Known & { readonly isNumberedAlike: boolean },
): readonly RowPair[] {
  const ours = byNumber(left.mine, known.numberOf);
  const theirs = byNumber(left.record, known.numberOf);
  return pairWithin(ours, theirs, { known, may: (a, b) => isNumberedAlike || isNear(a, b) });
}

interface Within {
  readonly known: Known;
  /** Whether two rows of one number may be partners. */
  readonly may: (mine: ReadRow, record: ReadRow) => boolean;
}

function pairWithin(ours: Numbered, theirs: Numbered, { known, may }: Within): RowPair[] {
  const cost = (a: ReadRow, b: ReadRow) => (may(a, b) ? fitCost(a, b, known) : undefined);
  const pairs: RowPair[] = [];
  for (const [number, mine] of ours) {
    const record = theirs.get(number);
    if (!record) continue;
    const [one, other] = [mine[0], record[0]];
    // Most numbers stand once in each list: nothing is to be chosen.
    if (mine.length === 1 && record.length === 1 && one && other) {
      if (may(one, other)) pairs.push([one, other]);
    } else pairs.push(...(pairUp({ mine, record, cost, alone: ALONE, bounds: NO_BOUNDS }) ?? []));
  }
  return pairs;
}

/** At most `MOST_OF_ONE_NUMBER` rows of each list. */
const NO_BOUNDS: Bounds = { pairs: Number.POSITIVE_INFINITY, steps: Number.POSITIVE_INFINITY };

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

function countOf(groups: Numbered): number {
  let count = 0;
  for (const rows of groups.values()) count += rows.length;
  return count;
}

/** More than any pair. */
const ALONE = 100_000;
const NEAR_WEIGHT = 200;
const EXPLAINED_WEIGHT = 300;
const OTHER_WEIGHT = 1000;
const NEXT_DAY = 50;
const EXPLAINED_DAY = 200;
const OTHER_DAY = 400;
const OTHER_TRUCK = 500;
const OTHER_AMOUNT = 150;
const OTHER_TEST = 50;

/** How badly rows of one number fit each other: the weight tells most, then the truck, the day, the money. */
function fitCost(a: ReadRow, b: ReadRow, known: Known): number {
  return (
    weightCost(a, b, known) +
    dayCost(a, b) +
    (isOtherTruck(a, b) ? OTHER_TRUCK : 0) +
    (a.row.amount === b.row.amount ? 0 : OTHER_AMOUNT) +
    (a.row.dryMatter === b.row.dryMatter ? 0 : OTHER_TEST) +
    (a.content === b.content ? 0 : 1)
  );
}

/** More than the number speaks for the pair: the same weight, or one that can be told on a day that can. */
function isFirm(a: ReadRow, b: ReadRow, known: Known): boolean {
  if (isSameWeight(a, b)) return true;
  return !isOtherTruck(a, b) && dayCost(a, b) < OTHER_DAY && weightCost(a, b, known) < OTHER_WEIGHT;
}

function weightCost(a: ReadRow, b: ReadRow, { tares, tolerance }: Known): number {
  if (isSameWeight(a, b)) return 0;
  if (isWithin(a, b, tolerance)) return NEAR_WEIGHT;
  return weightCauses({ mine: a, record: b }, tares).length > 0 ? EXPLAINED_WEIGHT : OTHER_WEIGHT;
}

function dayCost(a: ReadRow, b: ReadRow): number {
  const days = Math.abs(a.day - b.day);
  if (days <= 1) return days * NEXT_DAY;
  return dateCauses({ mine: a, record: b }).length > 0 ? EXPLAINED_DAY : OTHER_DAY;
}

function isNear(a: ReadRow, b: ReadRow): boolean {
  return Math.abs(a.day - b.day) <= 1 && !isOtherTruck(a, b);
}

function isOtherTruck(a: ReadRow, b: ReadRow): boolean {
  return a.truck !== null && b.truck !== null && a.truck !== b.truck;
}
