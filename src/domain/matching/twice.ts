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
  const repeated = alike(rows, ({ day, truck, ticket, row }) =>
    [ticket, day, truck, row.unit, row.net].join('\n'),
  );
  const needless = new Set<ReadRow>();
  for (const group of repeated) {
    // Without a number, two loads may well be alike.
    if (group.some((row) => numberOf(row) === null)) continue;
    const looking = inOwnOrder(group.filter((row) => !isPaired(row)));
    const isAnswered = looking.length < group.length;
    for (const row of looking.slice(isAnswered ? 0 : 1)) needless.add(row);
  }
  return rows.filter((row) => !isPaired(row) && !needless.has(row));
}

/** For each row without a partner that stands twice, the one of its list that it repeats. */
export function doublesAmong(rows: readonly ReadRow[], { numberOf, isPaired }: Known): Map<ReadRow, ReadRow> {
  const doubles = new Map<ReadRow, ReadRow>();
  for (const group of alike(rows, (row) => numberOf(row) ?? `\n${row.content}`)) {
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
