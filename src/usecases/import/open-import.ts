/**
 * A file that somebody brings, opened: its bytes as a table, and the table by a match as rows of ours.
 */

import { zoneCalendar } from '../../domain/dates/instant.ts';
import type { Verb } from '../../domain/parties/permissions.ts';
import { type ColumnMatch, checkMatch, columnMatchShape } from '../../domain/tables/column-match.ts';
import { type MatchedRow, matchedRows } from '../../domain/tables/matched-rows.ts';
import { IMPORT_KINDS, type ImportKind } from '../../domain/tables/wanted-columns.ts';
import { type CsvFile, readCsvBytes } from '../../files/read-csv-bytes.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import { badInput } from '../read-input-rows.ts';

/** What each kind of file takes to bring in. */
export const IMPORT_VERBS: Readonly<Record<ImportKind, Verb>> = {
  tickets: 'record-load',
  results: 'record-result',
  quotes: 'record-quote',
};

/** The match of a file that is to be recorded. */
export type ImportMatch = ColumnMatch & { readonly kind: ImportKind };

export interface FileToImport {
  readonly agreementId: string;
  readonly bytes: Uint8Array;
  /** A `ColumnMatch`. */
  readonly match: unknown;
}

export interface OpenedImport {
  readonly match: ImportMatch;
  readonly header: readonly string[];
  readonly rows: readonly MatchedRow[];
}

/** The table of a file. Refuses `bad-input` with all that keeps it from being read. */
export function openFile(bytes: Uint8Array): CsvFile {
  const read = readCsvBytes(bytes);
  if ('file' in read) return read.file;
  throw badInput(
    read.faults.map(({ line, message }) => ({
      column: 'file',
      message: line === undefined ? message : `line ${line}: ${message}`,
    })),
  );
}

/** A match that came from outside. Refuses `bad-input`. */
export function readMatch(match: unknown): ImportMatch {
  const read = readAnyMatch(match);
  const kind = IMPORT_KINDS.find((known) => known === read.kind);
  if (kind) return { ...read, kind };
  throw badInput([{ column: 'kind', message: 'must be something that can be recorded' }]);
}

/** The same of any kind. Refuses `bad-input`. */
export function readAnyMatch(match: unknown): ColumnMatch {
  const read = columnMatchShape.safeParse(match);
  if (read.success) return read.data;
  throw badInput(
    read.error.issues.map(({ path }) => ({
      column: path.join('.') || 'match',
      message: 'must be answered, as one of the choices that are given',
    })),
  );
}

/** The file's rows by the match. Refuses `bad-input` where either cannot be used; faults of rows stay with the rows. */
export function openImport(found: FoundAgreement, file: Pick<FileToImport, 'bytes' | 'match'>): OpenedImport {
  const match = readMatch(file.match);
  const { header, rows } = openFile(file.bytes);
  const problems = checkMatch(match, header.length);
  if (problems.length > 0) {
    throw badInput(problems.map(({ wanted, message }) => ({ column: wanted, message })));
  }
  const calendar = zoneCalendar(found.agreement.timeZone);
  return { match, header, rows: matchedRows({ match, header, rows, calendar }) };
}
