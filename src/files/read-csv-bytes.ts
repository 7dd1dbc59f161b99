/**
 * A CSV file of any program, as bytes: its header and its records, whatever separates the cells. Nothing is known yet
 * of what the columns are.
 */
import { parse } from 'csv-parse/sync';
import type { SourceRow } from '../domain/tables/matched-rows.ts';
import { describeCsvError, LONGEST_RECORD_CHARACTERS, lineOf, newlinesIn } from './read-csv.ts';

export const LARGEST_FILE_BYTES = 10 * 1024 * 1024;
const MOST_COLUMNS = 200;

export interface CsvFile {
  readonly header: readonly string[];
  readonly rows: readonly SourceRow[];
}

export interface CsvFault {
  readonly line?: number;
  readonly message: string;
}

/** The file, or all that keeps it from being read. A record that is no CSV is a fault: nothing is passed over. */
export function readCsvBytes(
  bytes: Uint8Array,
): { readonly file: CsvFile } | { readonly faults: readonly CsvFault[] } {
  if (bytes.byteLength > LARGEST_FILE_BYTES) {
    return { faults: [{ message: 'is larger than 10 MB; split it and bring its parts one by one' }] };
  }
  const text = textOf(bytes);
  if (typeof text !== 'string') return { faults: [text] };
  const faults: CsvFault[] = [];
  const records: { readonly cells: string[]; readonly line: number }[] = [];
  parse(text, {
    delimiter: separatorOf(text),
    trim: true,
    skip_empty_lines: true,
    skip_records_with_empty_values: true,
    relax_column_count: true,
    skip_records_with_error: true,
    max_record_size: LONGEST_RECORD_CHARACTERS,
    on_record: (record: string[], { lines }) => {
      records.push({ cells: record.map((cell) => cell.trim()), line: lines - newlinesIn(record) });
      return null;
    },
    on_skip: (error) => {
      if (error) faults.push({ line: lineOf(error), message: describeCsvError(error) });
      return undefined;
    },
  });
  const [head, ...rows] = records;
  if (faults.length > 0) return { faults };
  if (!head) return { faults: [{ message: 'is empty; its first line must name the columns' }] };
  if (head.cells.length > MOST_COLUMNS) {
    return {
      faults: [
        { line: head.line, message: `has ${head.cells.length} columns; at most ${MOST_COLUMNS} are read` },
      ],
    };
  }
  if (rows.length === 0) return { faults: [{ message: 'has a header and no rows under it' }] };
  return { file: { header: head.cells, rows } };
}

/** The bytes as text with plain line ends and no byte-order mark, so that one file is one text however it travelled. */
export function plainText(bytes: Uint8Array): string {
  return new TextDecoder('utf-8', { fatal: true }).decode(bytes).replace(/\r\n?/g, '\n');
}

function textOf(bytes: Uint8Array): string | CsvFault {
  if (bytes.includes(0)) {
    return { message: 'is not a text file (it holds zero bytes); save it as CSV, UTF-8' };
  }
  try {
    return plainText(bytes);
  } catch {
    return { message: 'is not UTF-8 text; save it as CSV, UTF-8' };
  }
}

/** Of comma, semicolon and tab, what stands most often in the first line outside of quotes. */
function separatorOf(text: string): string {
  const head = (text.trimStart().split('\n')[0] ?? '').replace(/"[^"]*"/g, '');
  const count = (mark: string) => head.split(mark).length;
  return [';', '\t'].reduce((best, mark) => (count(mark) > count(best) ? mark : best), ',');
}
