/**
 * Minimum-cost assignment over few pairs: shortest augmenting paths with potentials, as Jonker and Volgenant (1987) have
 * it, over the pairs that there are. A row may stay alone, at a cost. Exact: costs are whole numbers.
 * With n rows and m pairs it takes at most n searches of m log m; with every pair there, as many as the dense method.
 */
import { Heap } from './heap.ts';

/** The pairs that may be made, by row: those of row i are at `start[i]` up to, not including, `start[i + 1]`. */
export interface SparseCosts {
  readonly rows: number;
  readonly columns: number;
  readonly start: Int32Array;
  readonly column: Int32Array;
  /** Whole numbers, 0 or more. */
  readonly cost: Int32Array;
}

export interface Assignment {
  /** The column of each row, −1 where it stays alone. */
  readonly columnOf: Int32Array;
  /** Costs of the pairs, and `alone` for each row without one. */
  readonly total: number;
}

const NONE = -1;

/**
 * The cheapest way to pair rows with columns, each at most once, where a row without a column costs `alone`. Where two
 * ways cost the same, the one with earlier columns for earlier rows is looked at first; the same input gives the same.
 * Undefined where it takes more than `maxSteps` looks at a pair: told, never guessed.
 */
export function assign(costs: SparseCosts, alone: number, maxSteps: number): Assignment | undefined {
  const search = new Search(costs, alone, maxSteps);
  for (let row = 0; row < costs.rows; row++) {
    if (!search.place(row)) return undefined;
  }
  return { columnOf: search.columnOf, total: search.total() };
}

/** The state between searches: who is paired, and the potentials, by which no pair's reduced cost is below zero. */
class Search {
  readonly columnOf: Int32Array;
  private readonly rowOf: Int32Array;
  private readonly rowPotential: Float64Array;
  private readonly columnPotential: Float64Array;
  private readonly distance: Float64Array;
  private readonly from: Int32Array;
  private readonly isDone: Uint8Array;
  private readonly heap = new Heap();
  private steps = 0;

  constructor(
    private readonly costs: SparseCosts,
    private readonly alone: number,
    private readonly maxSteps: number,
  ) {
    this.columnOf = new Int32Array(costs.rows).fill(NONE);
    this.rowOf = new Int32Array(costs.columns).fill(NONE);
    this.rowPotential = new Float64Array(costs.rows);
    this.columnPotential = new Float64Array(costs.columns);
    this.distance = new Float64Array(costs.columns).fill(Number.POSITIVE_INFINITY);
    this.from = new Int32Array(costs.columns).fill(NONE);
    this.isDone = new Uint8Array(costs.columns);
  }

  /** Gives the row its place along the shortest path to a free column, or to a row that had better stay alone. */
  place(first: number): boolean {
    const { distance, isDone, rowOf } = this;
    const seen: number[] = [];
    const done: number[] = [];
    let row = first;
    let reached = 0;
    let aloneAt = Number.POSITIVE_INFINITY;
    let aloneRow = first;
    let end = NONE;
    this.heap.clear();
    for (;;) {
      const stays = reached + this.alone - (this.rowPotential[row] ?? 0);
      if (stays < aloneAt) {
        aloneAt = stays;
        aloneRow = row;
      }
      if (!this.look(row, reached, seen)) return false;
      let next = this.nearest();
      while (next !== undefined && isDone[next] === 1) next = this.nearest();
      const nextAt = next === undefined ? Number.POSITIVE_INFINITY : (distance[next] ?? 0);
      if (next === undefined || aloneAt < nextAt) {
        reached = aloneAt;
        break;
      }
      reached = nextAt;
      const owner = rowOf[next] ?? NONE;
      if (owner === NONE) {
        end = next;
        break;
      }
      isDone[next] = 1;
      done.push(next);
      row = owner;
    }
    this.raise(first, reached, done);
    this.turn(first, end === NONE ? aloneRow : NONE, end);
    for (const column of seen) {
      distance[column] = Number.POSITIVE_INFINITY;
      isDone[column] = 0;
    }
    return true;
  }

  private look(row: number, reached: number, seen: number[]): boolean {
    const { costs, distance, isDone, columnPotential, heap } = this;
    const from = costs.start[row] ?? 0;
    const to = costs.start[row + 1] ?? 0;
    this.steps += to - from + 1;
    if (this.steps > this.maxSteps) return false;
    const base = reached - (this.rowPotential[row] ?? 0);
    for (let at = from; at < to; at++) {
      const column = costs.column[at] ?? 0;
      if (isDone[column] === 1) continue;
      const length = base + (costs.cost[at] ?? 0) - (columnPotential[column] ?? 0);
      const known = distance[column] ?? 0;
      if (length >= known) continue;
      if (known === Number.POSITIVE_INFINITY) seen.push(column);
      distance[column] = length;
      this.from[column] = row;
      // Of equally near columns the free come first: they end the search.
      heap.put((this.rowOf[column] ?? NONE) === NONE ? column : column + costs.columns, length);
    }
    return true;
  }

  private nearest(): number | undefined {
    const item = this.heap.take();
    return item === undefined || item < this.costs.columns ? item : item - this.costs.columns;
  }

  /** New potentials of all that was passed, so that the path found costs nothing by them. */
  private raise(first: number, reached: number, done: readonly number[]): void {
    this.rowPotential[first] = (this.rowPotential[first] ?? 0) + reached;
    for (const column of done) {
      const more = reached - (this.distance[column] ?? 0);
      const owner = this.rowOf[column] ?? 0;
      this.rowPotential[owner] = (this.rowPotential[owner] ?? 0) + more;
      this.columnPotential[column] = (this.columnPotential[column] ?? 0) - more;
    }
  }

  /** Each row on the path takes the next column of it; the last takes the free one, or stays alone. */
  private turn(first: number, aloneRow: number, end: number): void {
    let column = end;
    if (aloneRow !== NONE) {
      column = this.columnOf[aloneRow] ?? NONE;
      this.columnOf[aloneRow] = NONE;
      if (aloneRow === first) return;
    }
    for (;;) {
      const row = this.from[column] ?? 0;
      const before = this.columnOf[row] ?? NONE;
      this.rowOf[column] = row;
      this.columnOf[row] = column;
      if (row === first) return;
      column = before;
    }
  }

  total(): number {
    const { costs, columnOf } = this;
    let sum = 0;
    for (let row = 0; row < costs.rows; row++) {
      let paid = this.alone;
      for (let at = costs.start[row] ?? 0; at < (costs.start[row + 1] ?? 0); at++) {
        if (costs.column[at] === columnOf[row]) paid = costs.cost[at] ?? 0;
      }
      sum += paid;
    }
    return sum;
  }
}
