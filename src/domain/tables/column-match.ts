/**
 * How the columns of a file of any program are to be read as ours: which column is which, what is the same for all
 * rows, and how dates, decimals and times are written. Plain JSON, so that it travels with a form.
 */
import { z } from 'zod';
import { DATE_ORDERS } from './cell-texts.ts';
import { TABLE_KINDS, type TableKind, WANTED, type WantedColumn } from './wanted-columns.ts';

const OFFSET = /^(agreement|Z|[+-]\d{2}:\d{2})$/;

const source = z.union([
  z.strictObject({ column: z.number().int().min(0).max(999) }),
  z.strictObject({ constant: z.string().min(1).max(200) }),
]);

export const columnMatchShape = z.strictObject({
  kind: z.enum(TABLE_KINDS),
  /** By the wanted column's name: the file's column, from 0, or a text that stands for all rows. */
  columns: z.record(z.string(), source),
  dateOrder: z.enum(DATE_ORDERS),
  decimalMark: z.enum(['.', ',']),
  /** For times without an offset from UTC: the clock of the agreement's time zone, or one offset for all. */
  timeOffset: z.string().regex(OFFSET),
});

export type ColumnMatch = z.infer<typeof columnMatchShape>;
export type ColumnSource = ColumnMatch['columns'][string];

/** What stands in the way of using a match, in words that follow the wanted column's label. */
export interface MatchProblem {
  readonly wanted: string;
  readonly message: string;
}

/** All faults of a match for a file with that many columns. */
export function checkMatch(match: ColumnMatch, columnCount: number): MatchProblem[] {
  const wantedColumns = WANTED[match.kind];
  const problems: MatchProblem[] = [];
  const taken = new Map<number, string>();
  for (const [name, from] of Object.entries(match.columns)) {
    const column = wantedColumns.find((known) => known.name === name);
    if (!column) {
      problems.push({ wanted: name, message: 'is nothing that is wanted of this file' });
    } else if ('constant' in from) {
      if (!column.mayBeConstant) problems.push({ wanted: name, message: 'must come from a column' });
    } else if (from.column >= columnCount) {
      problems.push({
        wanted: name,
        message: `is matched with column ${from.column + 1}; the file has ${columnCount}`,
      });
    } else {
      const other = taken.get(from.column);
      if (other !== undefined) {
        const label = labelOf(match.kind, other);
        problems.push({
          wanted: name,
          message: `is matched with the column that is already taken as ${label}`,
        });
      }
      taken.set(from.column, name);
    }
  }
  return [...problems, ...missing(match, wantedColumns)];
}

function missing({ kind, columns }: ColumnMatch, wantedColumns: readonly WantedColumn[]): MatchProblem[] {
  const problems = wantedColumns
    .filter(({ name, isRequired }) => isRequired && columns[name] === undefined)
    .map(({ name, mayBeConstant }) => ({
      wanted: name,
      message: mayBeConstant
        ? 'is not matched: choose a column, or what it is in all rows'
        : 'is not matched: choose its column',
    }));
  if (kind === 'results' && columns['dry_matter'] === undefined && columns['moisture'] === undefined) {
    problems.push({
      wanted: 'dry_matter',
      message: 'is not matched: choose its column, or that of moisture',
    });
  }
  if (kind === 'results' && columns['dry_matter'] !== undefined && columns['moisture'] !== undefined) {
    problems.push({ wanted: 'moisture', message: 'is matched beside dry matter; leave one of the two out' });
  }
  const weighed = [columns['gross'], columns['tare']];
  if (kind === 'own-loads' && columns['net'] === undefined && weighed.includes(undefined)) {
    problems.push({
      wanted: 'net',
      message: 'is not matched: choose its column, or those of gross and tare',
    });
  }
  if (kind === 'tickets' && columns['miles'] !== undefined && columns['km'] !== undefined) {
    problems.push({ wanted: 'km', message: 'is matched beside miles; leave one of the two out' });
  }
  return problems;
}

/** What a wanted column is called. */
export function labelOf(kind: TableKind, name: string): string {
  return WANTED[kind].find((column) => column.name === name)?.label ?? name;
}
