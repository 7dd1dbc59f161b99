/**
 * Pairs two sets of rows at the least cost, whatever order they come in and whichever is called the first.
 */
import { assign, type SparseCosts } from './assignment.ts';
import { compareTexts, inOwnOrder, type Ordered, type ReadRow } from './list-row.ts';

/** One of mine with one of the record. */
export type RowPair<Row = ReadRow> = readonly [Row, Row];

/** Past these a group is told to be too large, and nothing in it is paired. */
export interface Bounds {
  /** Pairs that may be made. */
  readonly pairs: number;
  /** Looks at a pair, while they are found and while they are chosen from. */
  readonly steps: number;
}

export interface PairingUp<Row extends Ordered = ReadRow> {
  readonly mine: readonly Row[];
  readonly record: readonly Row[];
  /** A whole number, the same with the two exchanged; undefined for two that may not be paired. */
  readonly cost: (mine: Row, record: Row) => number | undefined;
  /** Of the record's rows, those that one of mine may be paired with; all where it is not given. */
  readonly near?: (mine: Row) => Iterable<Row>;
  /** What two rows cost that stay alone. */
  readonly alone: number;
  readonly bounds: Bounds;
}

/**
 * The cheapest pairs. Rows are taken by what they say and not by their place, and the list that comes first by that is
 * the rows of the assignment, so that exchanging the lists gives the same pairs. Undefined past the bounds.
 */
export function pairUp<Row extends Ordered>(pairing: PairingUp<Row>): RowPair<Row>[] | undefined {
  const mine = inOwnOrder(pairing.mine);
  const record = inOwnOrder(pairing.record);
  const costs = costsBetween(mine, record, pairing);
  if (!costs) return undefined;
  const isTurned = compareTexts(allContent(record), allContent(mine)) < 0;
  const found = assign(isTurned ? turned(costs) : costs, pairing.alone, pairing.bounds.steps);
  if (!found) return undefined;
  const pairs: RowPair<Row>[] = [];
  for (const [row, column] of found.columnOf.entries()) {
    const [one, other] = isTurned ? [mine[column], record[row]] : [mine[row], record[column]];
    if (one && other) pairs.push([one, other]);
  }
  return pairs;
}

/** The columns of a row are in rising order, as the assignment looks at the earlier first. */
function costsBetween<Row extends Ordered>(
  mine: readonly Row[],
  record: readonly Row[],
  { cost, near, bounds }: PairingUp<Row>,
): SparseCosts | undefined {
  const placeOf = new Map(record.map((row, index) => [row, index]));
  const start = [0];
  const column: number[] = [];
  const costs: number[] = [];
  let steps = 0;
  for (const row of mine) {
    const priced: [number, number][] = [];
    for (const other of near?.(row) ?? record) {
      steps++;
      const place = placeOf.get(other);
      const price = place === undefined ? undefined : cost(row, other);
      if (place !== undefined && price !== undefined) priced.push([place, price]);
    }
    for (const [place, price] of priced.sort((a, b) => a[0] - b[0])) {
      column.push(place);
      costs.push(price);
    }
    start.push(column.length);
    if (column.length > bounds.pairs || steps > bounds.steps) return undefined;
  }
  return {
    rows: mine.length,
    columns: record.length,
    start: Int32Array.from(start),
    column: Int32Array.from(column),
    cost: Int32Array.from(costs),
  };
}

/** The same pairs, with the columns as rows. */
function turned({ rows, columns, start, column, cost }: SparseCosts): SparseCosts {
  const begin = new Int32Array(columns + 1);
  for (const to of column) begin[to + 1] = (begin[to + 1] ?? 0) + 1;
  for (let to = 0; to < columns; to++) begin[to + 1] = (begin[to + 1] ?? 0) + (begin[to] ?? 0);
  const free = begin.slice();
  const turnedColumn = new Int32Array(column.length);
  const turnedCost = new Int32Array(column.length);
  for (let row = 0; row < rows; row++) {
    for (let at = start[row] ?? 0; at < (start[row + 1] ?? 0); at++) {
      const to = column[at] ?? 0;
      const place = free[to] ?? 0;
      free[to] = place + 1;
      turnedColumn[place] = row;
      turnedCost[place] = cost[at] ?? 0;
    }
  }
  return { rows: columns, columns: rows, start: begin, column: turnedColumn, cost: turnedCost };
}

function allContent(rows: readonly Ordered[]): string {
  return rows.map(({ content, row }) => `${content}\n${row.id}`).join('\n');
}
