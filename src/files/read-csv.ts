/**
 * Rows of a CSV file (RFC 4180, header row, UTF-8), one at a time, by a streaming parser.
 * A row that cannot be read as CSV is reported and passed over, so that every fault of a file is found in one go.
 */
import { finished } from 'node:stream/promises';
import { type CsvError, parse } from 'csv-parse';
import { checkHeader, clip, type TableShape } from '../domain/tables/table-shape.ts';
import type { InputProblem } from './input-problem.ts';
import { readTextBytes, UnreadableFile } from './read-bytes.ts';

/** One record of the file. */
export interface CsvRow {
  /** The line on which the record starts. */
  readonly line: number;
  /** The trimmed text of a column; '' where it is empty or the file has no such column. */
  readonly cell: (column: string) => string;
}

export interface CsvTable {
  /** Columns as the file has them. */
  readonly header: readonly string[];
  /** Rows in file order, as many at a time as came off the disk together: a promise for each would cost more. */
  readonly batches: AsyncIterable<readonly CsvRow[]>;
}

interface Parsed {
  readonly record: readonly string[];
  /** The line on which the record ends. */
  readonly lastLine: number;
}

/** Longer records are refused: no row of ours comes near it, and a stray quote can swallow a whole file. */
export const LONGEST_RECORD_CHARACTERS = 1_000_000;

export interface CsvSource {
  readonly path: string;
  readonly shape: TableShape;
  readonly report: (problem: InputProblem) => void;
}

/**
 * Opens a table. Undefined, with problems reported, where the file cannot be read or its header is wrong.
 * Faults of rows are reported while `batches` is read.
 */
export async function readCsv({ path, shape, report }: CsvSource): Promise<CsvTable | undefined> {
  const { file } = shape;
  const batches = parseRecords({ path, file, report });
  const first = await batches.next();
  if (first.done) {
    if (first.value === 'empty') {
      report({
        file,
        message: `is empty; its first line must name the columns: ${shape.required.join(',')}`,
      });
    }
    return undefined;
  }
  const [head, ...rest] = first.value;
  const header = (head?.record ?? []).map((cell) => cell.trim());
  const problems = checkHeader(header, shape);
  for (const problem of problems) report({ file, line: 1, ...problem });
  if (problems.length > 0) {
    await batches.return('unread');
    return undefined;
  }
  return { header, batches: rowsOf(rest, batches, { file, header, report }) };
}

interface RowSource {
  readonly file: string;
  readonly header: readonly string[];
  readonly report: (problem: InputProblem) => void;
}

async function* rowsOf(
  first: readonly Parsed[],
  batches: AsyncGenerator<readonly Parsed[], unknown>,
  { file, header, report }: RowSource,
): AsyncGenerator<readonly CsvRow[]> {
  const indexOf = new Map(header.map((column, index) => [column, index]));
  const toRow = ({ record, lastLine }: Parsed): CsvRow[] => {
    const line = lastLine - newlinesIn(record);
    if (record.length !== header.length) {
      report({ file, line, message: `has ${record.length} cells; the header has ${header.length} columns` });
      return [];
    }
    return [{ line, cell: (column) => record[indexOf.get(column) ?? -1]?.trim() ?? '' }];
  };
  yield first.flatMap(toRow);
  for await (const batch of batches) yield batch.flatMap(toRow);
}

/** The parser counts lines to the end of a record; one with line breaks inside quotes began earlier. */
export function newlinesIn(record: readonly string[]): number {
  let count = 0;
  for (const cell of record) if (cell.includes('\n')) count += cell.split('\n').length - 1;
  return count;
}

type End = 'empty' | 'unread' | 'read';

/** Batches of records, none of them empty. */
async function* parseRecords({
  path,
  file,
  report,
}: Pick<CsvSource, 'path' | 'report'> & { readonly file: string }): AsyncGenerator<readonly Parsed[], End> {
  let seen = false;
  let batch: Parsed[] = [];
  let lastLine = 0;
  const parser = parse({
    bom: true,
    skip_empty_lines: true,
    // A spreadsheet saves rows that were once used as commas alone.
    skip_records_with_empty_values: true,
    relax_column_count: true,
    skip_records_with_error: true,
    max_record_size: LONGEST_RECORD_CHARACTERS,
    // Records are taken here; nothing goes through the parser's own stream.
    on_record: (record: readonly string[], { lines }) => {
      batch.push({ record, lastLine: lines });
      lastLine = lines;
      return null;
    },
    on_skip: (error) => {
      seen = true;
      if (error) {
        // A quote that is never closed is found at the end of the file, far from where it stands.
        const line = error.code === 'CSV_QUOTE_NOT_CLOSED' ? lastLine + 1 : lineOf(error);
        report({ file, line, message: describeCsvError(error) });
        lastLine = lineOf(error);
      }
      return undefined;
    },
  });
  parser.resume();
  const take = (): readonly Parsed[] => {
    const taken = batch;
    batch = [];
    seen ||= taken.length > 0;
    return taken;
  };
  try {
    for await (const chunk of readTextBytes(path, file)) {
      await new Promise<void>((resolve, reject) => {
        parser.write(chunk, (error) => (error ? reject(error) : resolve()));
      });
      if (batch.length > 0) yield take();
    }
    await finished(parser.end());
    if (batch.length > 0) yield take();
    return seen ? 'read' : 'empty';
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error;
    report(error.problem);
    return 'unread';
  } finally {
    parser.destroy();
  }
}

export function lineOf(error: CsvError): number {
  const lines = (error as { lines?: unknown }).lines;
  return typeof lines === 'number' ? lines : 1;
}

export function describeCsvError(error: CsvError): string {
  switch (error.code) {
    case 'CSV_MAX_RECORD_SIZE':
      return `is longer than ${LONGEST_RECORD_CHARACTERS} characters; is a line break or a closing quote missing?`;
    case 'CSV_QUOTE_NOT_CLOSED':
      return 'has a quote that is never closed; close it, or write a quote inside a cell twice, as ""';
    case 'CSV_INVALID_CLOSING_QUOTE':
    case 'INVALID_OPENING_QUOTE':
      return 'has a quote out of place; put the whole cell in quotes, and write a quote inside it twice, as ""';
    default:
      return `cannot be read as CSV: ${clip(error.message)}`;
  }
}
