import fc from 'fast-check';
import { expect, test } from 'vitest';
import { assign, type SparseCosts } from '../../../src/domain/matching/assignment.ts';

const UNBOUNDED = Number.MAX_SAFE_INTEGER;

function sparse(matrix: readonly (readonly (number | null)[])[], columns: number): SparseCosts {
  const start = [0];
  const column: number[] = [];
  const cost: number[] = [];
  for (const row of matrix) {
    for (const [index, value] of row.entries()) {
      if (value === null) continue;
      column.push(index);
      cost.push(value);
    }
    start.push(column.length);
  }
  return {
    rows: matrix.length,
    columns,
    start: Int32Array.from(start),
    column: Int32Array.from(column),
    cost: Int32Array.from(cost),
  };
}

/** Every way there is. */
function cheapest(
  matrix: readonly (readonly (number | null)[])[],
  alone: number,
  taken = 0,
  row = 0,
): number {
  const costs = matrix[row];
  if (!costs) return 0;
  let best = alone + cheapest(matrix, alone, taken, row + 1);
  for (const [column, cost] of costs.entries()) {
    if (cost === null || (taken & (1 << column)) !== 0) continue;
    best = Math.min(best, cost + cheapest(matrix, alone, taken | (1 << column), row + 1));
  }
  return best;
}

test('it costs what the cheapest of all ways costs', () => {
  const cell = fc.option(fc.integer({ min: 0, max: 12 }), { freq: 3 });
  const matrices = fc
    .record({ rows: fc.integer({ min: 0, max: 6 }), columns: fc.integer({ min: 1, max: 6 }) })
    .chain(({ rows, columns }) =>
      fc.array(fc.array(cell, { minLength: columns, maxLength: columns }), {
        minLength: rows,
        maxLength: rows,
      }),
    );
  fc.assert(
    fc.property(matrices, fc.integer({ min: 0, max: 15 }), (matrix, alone) => {
      const found = assign(sparse(matrix, 6), alone, UNBOUNDED);
      const columns = [...(found?.columnOf ?? [])];
      const paired = columns.filter((column) => column >= 0);
      expect(new Set(paired).size).toBe(paired.length);
      const paid = columns.map((column, row) => (column < 0 ? alone : (matrix[row]?.[column] ?? Number.NaN)));
      expect(found?.total).toBe(paid.reduce((sum, cost) => sum + cost, 0));
      expect(found?.total).toBe(cheapest(matrix, alone));
    }),
    { numRuns: 3000 },
  );
});

test('the nearest is not taken where the whole would cost more', () => {
  const found = assign(
    sparse(
      [
        [1, 2],
        [2, 9],
      ],
      2,
    ),
    100,
    UNBOUNDED,
  );
  expect(found).toEqual({ columnOf: Int32Array.from([1, 0]), total: 4 });
});

test('a pair that costs more than staying alone is not made', () => {
  expect(assign(sparse([[11]], 1), 10, UNBOUNDED)).toEqual({ columnOf: Int32Array.from([-1]), total: 10 });
});

test('three hundred by three hundred with every pair there is solved, and a bound on steps is told', () => {
  const size = 300;
  const matrix = Array.from({ length: size }, (_, row) =>
    Array.from({ length: size }, (_, column) => (row * 37 + column * 101 + row * column) % 997),
  );
  expect(assign(sparse(matrix, size), 1000, UNBOUNDED)?.columnOf).not.toContain(-1);
  expect(assign(sparse(matrix, size), 1000, 1000)).toBeUndefined();
});
