/**
 * Rows as forms and files give them, texts by column, held to the same rules as the CSV files.
 */
import { Row } from '../domain/tables/row.ts';
import type { TableShape } from '../domain/tables/table-shape.ts';
import { type Problem, Refusal } from './refusal.ts';

/** A row's texts by column. A column that is not there is an empty one. */
export type InputRow = Readonly<Record<string, string>>;

export interface RowReading<Found> {
  readonly shape: Pick<TableShape, 'required' | 'optional'>;
  readonly read: (row: Row) => Found | undefined;
  /** The columns whose texts, together, may stand in one row only. */
  readonly key: readonly string[];
}

/** What was read of one row, with its texts. */
export interface ReadRow<Found> {
  readonly found: Found;
  /** The trimmed text of a column; '' where there is none. */
  readonly text: (column: string) => string;
  readonly optional: (column: string) => string | null;
}

/** Reads all rows. Refuses `bad-input` with every fault of every row. */
export function readInputRows<Found>(
  rows: readonly InputRow[],
  { shape, read, key }: RowReading<Found>,
): ReadRow<Found>[] {
  const known = [...shape.required, ...shape.optional];
  const problems: Problem[] = [];
  const keys = new Map<string, number>();
  const good = rows.flatMap((input, index) => {
    const text = (column: string) => (Object.hasOwn(input, column) ? (input[column] ?? '') : '').trim();
    const row = new Row(text);
    for (const column of Object.keys(input)) {
      if (!known.includes(column)) {
        row.fault(column, `is not known; known columns are ${known.join(', ')}`);
      }
    }
    const found = read(row);
    const joined = JSON.stringify(key.map(text));
    const earlier = keys.get(joined);
    if (earlier !== undefined) row.fault(key.join(' and '), `stands in row ${earlier + 1} already`);
    else keys.set(joined, index);
    for (const problem of row.problems) problems.push({ row: index, ...problem });
    return found === undefined ? [] : [{ found, text, optional: (column: string) => text(column) || null }];
  });
  if (problems.length > 0) throw badInput(problems);
  return good;
}

/** A refusal that names every fault. */
export function badInput(problems: readonly Problem[]): Refusal {
  const told = problems.map(({ column, message }) =>
    column === undefined ? message : `${column} ${message}`,
  );
  return new Refusal('bad-input', told.join('\n'), problems);
}
