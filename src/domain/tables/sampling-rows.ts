/**
 * Rows about samples as forms and programs give them: how one was taken, its sealed parts, and who was handed a part.
 */
import { SAMPLE_PARTS, type SamplePart } from '../agreement/retest-rules.ts';
import { type Instant, parseInstant } from '../dates/instant.ts';
import type { LocalDate } from '../dates/local-date.ts';
import type { Row } from './row.ts';

export const TAKING_COLUMNS = { required: ['sample', 'taken_at', 'taken_by', 'how'], optional: [] } as const;
export const PART_COLUMNS = {
  required: ['sample', 'part', 'seal', 'airtight', 'kept_where'],
  optional: ['kept_until'],
} as const;
export const HANDOVER_COLUMNS = {
  required: ['handed_at', 'to_whom', 'kept_where', 'seal_intact'],
  optional: ['kept_until'],
} as const;

export interface Taking {
  readonly sample: string;
  readonly takenAt: Instant;
  readonly takenBy: string;
  /** By which way it was taken, in words: "five scoops from the unloading stream". */
  readonly how: string;
}

export interface SealedPart {
  readonly sample: string;
  readonly part: SamplePart;
  readonly seal: string;
  readonly isAirtight: boolean;
  readonly keptWhere: string;
  readonly keptUntil: LocalDate | null;
}

export interface Handover {
  readonly handedAt: Instant;
  readonly toWhom: string;
  readonly keptWhere: string;
  readonly keptUntil: LocalDate | null;
  readonly isSealIntact: boolean;
}

export function readTakingRow(row: Row): Taking | undefined {
  const sample = row.name('sample');
  const takenAt = readInstant(row, 'taken_at');
  const takenBy = row.name('taken_by');
  const how = row.name('how');
  return row.problems.length > 0 || takenAt === undefined ? undefined : { sample, takenAt, takenBy, how };
}

export function readPartRow(row: Row): SealedPart | undefined {
  const sample = row.name('sample');
  const part = row.word('part', SAMPLE_PARTS);
  const seal = row.name('seal');
  const isAirtight = readYes(row, 'airtight');
  const keptWhere = row.name('kept_where');
  const keptUntil = readOptionalDate(row, 'kept_until');
  if (row.problems.length > 0 || !part) return undefined;
  return { sample, part, seal, isAirtight, keptWhere, keptUntil };
}

export function readHandoverRow(row: Row): Handover | undefined {
  const handedAt = readInstant(row, 'handed_at');
  const toWhom = row.name('to_whom');
  const keptWhere = row.name('kept_where');
  const keptUntil = readOptionalDate(row, 'kept_until');
  const isSealIntact = readYes(row, 'seal_intact');
  if (row.problems.length > 0 || handedAt === undefined) return undefined;
  return { handedAt, toWhom, keptWhere, keptUntil, isSealIntact };
}

/** Whole milliseconds. */
function readInstant(row: Row, column: string): Instant | undefined {
  const text = row.text(column);
  const read = parseInstant(text);
  if ('instant' in read) return Math.trunc(read.instant);
  return row.fault(column, `must be ${read.wrong}; found ${JSON.stringify(text)}`);
}

function readYes(row: Row, column: string): boolean {
  return row.word(column, ['yes', 'no']) === 'yes';
}

function readOptionalDate(row: Row, column: string): LocalDate | null {
  return row.text(column) === '' ? null : (row.date(column) ?? null);
}
