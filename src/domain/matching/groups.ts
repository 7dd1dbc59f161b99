/**
 * Splits rows that found no partner by their number into small groups, no row of which can be paired with one of
 * another group: by day and truck, and a window of weights.
 */
import type { ReadRow } from './list-row.ts';
import { type Tolerance, windowOf } from './pair-cost.ts';

/** Rows of both lists that can only be paired with one another. */
export interface Group {
  readonly mine: ReadRow[];
  readonly record: ReadRow[];
}

export interface Grouped {
  /** Those with rows of both lists. */
  readonly groups: readonly Group[];
  /** The record's rows that one of mine could be by day, truck and weight. */
  readonly near: (mine: ReadRow) => Iterable<ReadRow>;
}

/** Rows of one day and truck, in the order of their weights. */
interface Block {
  readonly rows: ReadRow[];
  readonly weights: number[];
  /** For each place one further on in its run of joined rows; itself at the end of a run. */
  readonly onward: number[];
}

interface Window {
  readonly block: Block;
  readonly from: number;
  /** Not included. */
  readonly to: number;
}

/** In n log n, however many rows lie near each other: a run of rows is joined once, and then stepped over. */
export function groupsOf(
  mine: readonly ReadRow[],
  record: readonly ReadRow[],
  tolerance: Tolerance,
): Grouped {
  const days = blocksOf(record);
  const joined = new Joined();
  for (const row of mine) {
    for (const { block, from, to } of windowsOf(row, days, tolerance)) {
      const first = block.rows[from];
      if (first) joined.join(row, first);
      joinRun(block, { from, to, joined });
    }
  }
  const groups = new Map<ReadRow, Group>();
  const groupOf = (row: ReadRow): Group => {
    const root = joined.rootOf(row);
    const known = groups.get(root) ?? { mine: [], record: [] };
    groups.set(root, known);
    return known;
  };
  for (const row of mine) groupOf(row).mine.push(row);
  for (const row of record) groupOf(row).record.push(row);
  return {
    groups: [...groups.values()].filter((group) => group.mine.length > 0 && group.record.length > 0),
    near: (row) =>
      windowsOf(row, days, tolerance).flatMap(({ block, from, to }) => block.rows.slice(from, to)),
  };
}

/** By day, then by truck ('' for none). */
function blocksOf(rows: readonly ReadRow[]): Map<number, Map<string, Block>> {
  const days = new Map<number, Map<string, Block>>();
  for (const row of rows.toSorted((a, b) => a.thousandths - b.thousandths)) {
    const trucks = days.get(row.day) ?? new Map<string, Block>();
    days.set(row.day, trucks);
    const block = trucks.get(row.truck ?? '') ?? { rows: [], weights: [], onward: [] };
    trucks.set(row.truck ?? '', block);
    block.onward.push(block.rows.length);
    block.rows.push(row);
    block.weights.push(row.thousandths);
  }
  return days;
}

function windowsOf(
  row: ReadRow,
  days: ReadonlyMap<number, ReadonlyMap<string, Block>>,
  tolerance: Tolerance,
): Window[] {
  const most = windowOf(row.thousandths, tolerance);
  return [row.day - 1, row.day, row.day + 1].flatMap((day) => {
    const trucks = days.get(day);
    if (!trucks) return [];
    const blocks = row.truck === null ? [...trucks.values()] : [trucks.get(row.truck), trucks.get('')];
    return blocks.flatMap((block): Window[] => {
      if (!block) return [];
      const from = firstFrom(block.weights, row.thousandths - most);
      const to = firstFrom(block.weights, row.thousandths + most + 1);
      return from < to ? [{ block, from, to }] : [];
    });
  });
}

/** The place of the first number that is at least `least`, in rising numbers. */
function firstFrom(numbers: readonly number[], least: number): number {
  let low = 0;
  let high = numbers.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((numbers[middle] ?? 0) < least) low = middle + 1;
    else high = middle;
  }
  return low;
}

function joinRun(
  { rows, onward }: Block,
  { from, to, joined }: { readonly from: number; readonly to: number; readonly joined: Joined },
): void {
  for (let at = endOfRun(onward, from); at + 1 < to; at = endOfRun(onward, at)) {
    const [one, other] = [rows[at], rows[at + 1]];
    if (one && other) joined.join(one, other);
    onward[at] = at + 1;
  }
}

/** The last place of a run of joined rows; every place on the way then leads straight there. */
function endOfRun(onward: number[], at: number): number {
  let end = at;
  while ((onward[end] ?? end) !== end) end = onward[end] ?? end;
  for (let place = at; place !== end; ) {
    const next = onward[place] ?? end;
    onward[place] = end;
    place = next;
  }
  return end;
}

/** Sets of rows that grow together: the usual trees with shortened paths. */
class Joined {
  private readonly above = new Map<ReadRow, ReadRow>();

  rootOf(row: ReadRow): ReadRow {
    let root = row;
    for (let next = this.above.get(root); next; next = this.above.get(root)) root = next;
    for (let at = row; at !== root; ) {
      const next = this.above.get(at) ?? root;
      this.above.set(at, root);
      at = next;
    }
    return root;
  }

  join(a: ReadRow, b: ReadRow): void {
    const [one, other] = [this.rootOf(a), this.rootOf(b)];
    if (one !== other) this.above.set(other, one);
  }
}
