/**
 * Recorded rows as the cells that a form asks for, so that what was recorded can be put right where it stands; and what
 * differs between two such rows, in words.
 */

import { MEASURE_NAMES, TESTED } from '../../domain/agreement/measures.ts';
import { columnOf } from '../../domain/tables/table-shape.ts';
import type { ResultRow } from '../../store/rows/result-rows.ts';
import type { InputRow } from '../read-input-rows.ts';

/** The columns of a result that hold something, without its sample. */
export function resultCells(row: ResultRow): InputRow {
  return kept({
    laboratory: row.laboratory,
    method: row.method,
    dry_matter_method: row.dryMatterMethod,
    reported_on: row.reportedOn,
    basis: row.basis,
    ...Object.fromEntries(TESTED.map((measure) => [columnOf(measure), row.figures[measure]])),
  });
}

function kept(cells: Readonly<Record<string, string | null>>): InputRow {
  return Object.fromEntries(
    Object.entries(cells).flatMap(([key, text]) => (text === null ? [] : [[key, text]])),
  );
}

export interface ChangedCell {
  /** "gross", "starch". */
  readonly name: string;
  readonly before: string | undefined;
  readonly after: string | undefined;
}

const NAMES: Readonly<Record<string, string>> = {
  ...Object.fromEntries(TESTED.map((measure) => [columnOf(measure), MEASURE_NAMES[measure]])),
  delivered_at: 'time',
  miles: 'miles hauled',
  km: 'kilometres hauled',
  tare_at: 'time of the tare',
  gross_scale: 'scale of the gross',
  tare_scale: 'scale of the tare',
  moisture_reading: 'moisture by hand meter',
  dry_matter_method: 'dry-matter method',
  reported_on: 'day of the report',
};

/** Cells that differ, in the order of the first row. A time in another offset is the same time. */
export function changedCells(before: InputRow, after: InputRow): ChangedCell[] {
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return keys.flatMap((key) => {
    const [was, is] = [before[key], after[key]?.trim() || undefined];
    if (key === 'sample' && was !== undefined && is === undefined)
      return [{ name: 'sample', before: was, after: is }];
    if (was === is || isSameTime(was, is)) return [];
    return [{ name: NAMES[key] ?? key.replaceAll('_', ' '), before: was, after: is }];
  });
}

function isSameTime(one: string | undefined, other: string | undefined): boolean {
  if (one === undefined || other === undefined || !/^\d{4}-\d{2}-\d{2}T/.test(one)) return false;
  return Date.parse(one) === Date.parse(other);
}
