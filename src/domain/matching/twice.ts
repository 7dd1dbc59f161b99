/**
 * Rows that say again what another row of their list says: the same number, or, without one, the same in all respects.
 */
import type { NumberOf } from './by-ticket.ts';
import { compareTexts, inOwnOrder, type ReadRow } from './list-row.ts';

interface Known {
  readonly numberOf: NumberOf;
  readonly isPaired: (row: ReadRow) => boolean;
}

/**
 * Rows that still look for a partner: without those that say the same as one that has its partner or looks for it
 * already. A row of the same number that says something else may be another load with a mistyped number.
 */
export function withoutDoubles(rows: readonly ReadRow[], known: Known): ReadRow[] {
  const { numberOf, isPaired } = known;
  const needless = new Set<ReadRow>();
  // Without a number, two loads may well be alike.
  const open = (row: ReadRow) => (isPaired(row) ? null : numberOf(row));
  const suspect = rowsWithAny(rows, { of: open, keyOf: numberOf });
  const says = ({ day, truck, ticket, row }: ReadRow) => [ticket, day, truck, row.unit, row.net].join('\n');
  for (const group of alike(suspect, says)) {
    const looking = inOwnOrder(group.filter((row) => !isPaired(row)));
    const isAnswered = looking.length < group.length;
    for (const row of looking.slice(isAnswered ? 0 : 1)) needless.add(row);
  }
  return rows.filter((row) => !isPaired(row) && !needless.has(row));
}

/** For each row without a partner that stands twice, the one of its list that it repeats. */
export function doublesAmong(rows: readonly ReadRow[], { numberOf, isPaired }: Known): Map<ReadRow, ReadRow> {
  const doubles = new Map<ReadRow, ReadRow>();
  const keyOf = (row: ReadRow) => numberOf(row) ?? row.content;
  const open = (row: ReadRow) => (isPaired(row) ? null : keyOf(row));
  for (const group of alike(rowsWithAny(rows, { of: open, keyOf }), keyOf)) {
    const inOrder = inOwnOrder(group);
    const first = inOrder.find(isPaired) ?? inOrder[0];
    for (const row of inOrder) {
      if (first && row !== first && !isPaired(row)) doubles.set(row, nearest(row, first, inOrder, isPaired));
    }
  }
  return doubles;
}

/** The one that says the same where there is one, since several loads may share a number. */
function nearest(
  row: ReadRow,
  first: ReadRow,
  group: readonly ReadRow[],
  isPaired: (row: ReadRow) => boolean,
): ReadRow {
  return group.find((other) => other !== row && isPaired(other) && isAlike(other, row)) ?? first;
}

function isAlike(a: ReadRow, b: ReadRow): boolean {
  return a.day === b.day && a.truck === b.truck && compareTexts(a.row.net, b.row.net) === 0;
}

/** The rows whose key is that of any of them that is still open: few, in lists that agree. */
function rowsWithAny(
  rows: readonly ReadRow[],
  {
    of,
    keyOf,
  }: { readonly of: (row: ReadRow) => string | null; readonly keyOf: (row: ReadRow) => string | null },
): ReadRow[] {
  const wanted = new Set(rows.map(of));
  wanted.delete(null);
  if (wanted.size === 0) return [];
  return rows.filter((row) => wanted.has(keyOf(row)));
}

/** Groups of two or more with the same key. */
function alike(rows: readonly ReadRow[], keyOf: (row: ReadRow) => string): ReadRow[][] {
  const groups = new Map<string, ReadRow[]>();
  for (const row of rows) {
    const key = keyOf(row);
    const group = groups.get(key);
    if (group) group.push(row);
    else groups.set(key, [row]);
  }
  return [...groups.values()].filter((group) => group.length > 1);
}
