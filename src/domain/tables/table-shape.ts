/**
 * The CSV tables of a season: which columns each has. Columns come by name in any order; unknown ones are refused,
 * so that a figure in a misspelt column is never passed over.
 */
import { TESTED, type Tested } from '../agreement/measures.ts';

export interface TableShape {
  readonly file: string;
  readonly required: readonly string[];
  readonly optional: readonly string[];
}

/** The column that each measure of `samples.csv` stands in. */
export const MEASURE_COLUMNS: ReadonlyMap<string, Tested> = new Map(
  TESTED.map((measure) => [measure.replaceAll('-', '_'), measure]),
);

/** The column of a measure: `crude-protein` is in `crude_protein`. */
export function columnOf(measure: Tested): string {
  return measure.replaceAll('-', '_');
}

export const LOADS: TableShape = {
  file: 'loads.csv',
  required: ['ticket', 'delivered_at', 'gross', 'tare', 'unit'],
  optional: ['sample', 'miles', 'km', 'truck'],
};
export const SAMPLES: TableShape = {
  file: 'samples.csv',
  required: ['sample', 'basis', 'dry_matter'],
  optional: [...MEASURE_COLUMNS.keys()].filter((column) => column !== 'dry_matter'),
};
export const PRICES: TableShape = { file: 'prices.csv', required: ['series', 'date', 'price'], optional: [] };
export const ELECTIONS: TableShape = {
  file: 'elections.csv',
  required: ['ticket', 'series', 'date'],
  optional: [],
};
export const CHOICES: TableShape = { file: 'choices.csv', required: ['ticket', 'choice'], optional: [] };

/** What is wrong at one cell (or, without a column, with a row), in words that complete "loads.csv, line 4: …". */
export interface RowProblem {
  readonly column?: string;
  readonly message: string;
}

/** All faults of a header row. */
export function checkHeader(header: readonly string[], shape: TableShape): RowProblem[] {
  const known = [...shape.required, ...shape.optional];
  const problems: RowProblem[] = [];
  if (header.length === 1 && /[;\t]/.test(header[0] ?? '')) {
    const mark = header[0]?.includes(';') ? 'semicolons' : 'tabs';
    return [{ message: `is separated by ${mark}; save it with commas, header ${known.join(',')}` }];
  }
  for (const [index, column] of header.entries()) {
    if (header.indexOf(column) !== index) {
      problems.push({ column, message: 'stands twice in the header; remove one' });
    } else if (!known.includes(column)) {
      const small = column.toLowerCase();
      if (known.includes(small)) {
        problems.push({ column, message: `must be written ${small}, in small letters` });
        continue;
      }
      const shown = column === '' ? `has no name (column ${index + 1})` : 'is not known';
      problems.push({ column: clip(column), message: `${shown}; known columns are ${known.join(', ')}` });
    }
  }
  for (const column of shape.required) {
    if (!header.some((name) => name.toLowerCase() === column))
      problems.push({ column, message: 'is missing from the header' });
  }
  if (header.includes('miles') && header.includes('km')) {
    problems.push({ column: 'km', message: 'stands beside "miles"; give the distance in one of them' });
  }
  return problems;
}

/** A cell's text as it is shown in a message. */
export function clip(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}

/** `found "12,5"`, or `it is empty`. */
export function found(text: string): string {
  return text === '' ? 'it is empty' : `found ${JSON.stringify(clip(text))}`;
}
