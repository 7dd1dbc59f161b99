/**
 * Rows that say again what another row of their list says: the same number, or, without one, the same in all respects.
 */
import type { NumberOf } from './by-ticket.ts';
import { inOwnOrder, type ReadRow } from './list-row.ts';

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
  for (const group of alike(suspect, loadOf)) {
    const looking = inOwnOrder(group.filter((row) => !isPaired(row)));
    const isAnswered = looking.length < group.length;
    for (const row of looking.slice(isAnswered ? 0 : 1)) needless.add(row);
  }
  return rows.filter((row) => !isPaired(row) && !needless.has(row));
}

/**
 * For each row without a partner that stands twice, the one of its list that it repeats. A row that has its partner under
 * another number stands there by mistake, and nothing repeats it but what says the same.
 */
export function doublesAmong(
  rows: readonly ReadRow[],
  {
    numberOf,
    partnerOf,
  }: Pick<Known, 'numberOf'> & { readonly partnerOf: (row: ReadRow) => ReadRow | undefined },
): Map<ReadRow, ReadRow> {
  const isPaired = (row: ReadRow) => partnerOf(row) !== undefined;
  const isUnderItsOwn = (row: ReadRow) => {
    const partner = partnerOf(row);
    return !partner || numberOf(partner) === null || numberOf(partner) === numberOf(row);
  };
  const doubles = new Map<ReadRow, ReadRow>();
  const keyOf = (row: ReadRow) => numberOf(row) ?? row.content;
  const open = (row: ReadRow) => (isPaired(row) ? null : keyOf(row));
  for (const group of alike(rowsWithAny(rows, { of: open, keyOf }), keyOf)) {
    const inOrder = inOwnOrder(group);
    const paired = inOrder.filter(isPaired);
    const first = paired.find(isUnderItsOwn) ?? inOrder.find((row) => !isPaired(row));
    // The one that says the same where there is one, since several loads may share a number.
    const same = new Map(paired.toReversed().map((row) => [loadOf(row), row]));
    for (const row of inOrder) {
      const of = same.get(loadOf(row)) ?? first;
      if (of && row !== of && !isPaired(row)) doubles.set(row, of);
    }
  }
  return doubles;
}

/** What says that two rows of one number are one load. */
function loadOf({ day, truck, ticket, row }: ReadRow): string {
  return [ticket, day, truck, row.unit, row.net].join('\n');
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
