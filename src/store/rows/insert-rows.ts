/**
 * Many rows by one statement: a column is an array, and the arrays are unnested side by side.
 */
import type { Transaction } from '../open-store.ts';

/** A column's type in PostgreSQL and its values, in the order of the rows. */
export type Column = readonly [type: string, values: readonly (string | number | null)[]];

/** Inserts rows of `table`. The names come from our own source, never from a user. */
export async function insertRows(
  tx: Transaction,
  table: string,
  columns: Readonly<Record<string, Column>>,
): Promise<void> {
  const entries = Object.entries(columns);
  if ((entries[0]?.[1][1].length ?? 0) === 0) return;
  const names = entries.map(([name]) => `"${name}"`).join(', ');
  const arrays = entries.map(([, [type]], index) => `$${index + 1}::${type}[]`).join(', ');
  await tx.$executeRawUnsafe(
    `INSERT INTO "${table}" (${names}) SELECT * FROM unnest(${arrays})`,
    ...entries.map(([, [, values]]) => values),
  );
}
