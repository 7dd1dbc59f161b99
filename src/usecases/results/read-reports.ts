/**
 * Laboratory reports as forms, files and programs give them: the columns of `samples.csv`, and who tested how and when.
 */
import { TESTED, type Tested } from '../../domain/agreement/measures.ts';
import { plainDecimal } from '../../domain/numbers/printing.ts';
import type { LabResult } from '../../domain/samples/lab-result.ts';
import { prepareRemainderCheck } from '../../domain/settlement/check-remainders.ts';
import type { Row } from '../../domain/tables/row.ts';
import { readSampleRow } from '../../domain/tables/sample-row.ts';
import { columnOf, SAMPLES } from '../../domain/tables/table-shape.ts';
import type { ResultRow } from '../../store/rows/result-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import { type InputRow, type ReadRow, readInputRows } from '../read-input-rows.ts';

export const REPORT_COLUMNS = {
  required: SAMPLES.required,
  optional: [...SAMPLES.optional, 'laboratory', 'method', 'dry_matter_method', 'reported_on'],
};
const FIGURES: readonly Tested[] = TESTED.filter((measure) => measure !== 'dry-matter');

/** Reads reports. Parts that pass 100 % are wrong under any version that looks at them. Refuses `bad-input`. */
export function readReports(
  { versions }: Pick<FoundAgreement, 'versions'>,
  rows: readonly InputRow[],
): ReadRow<LabResult>[] {
  const checks = versions.map(({ agreement }) => prepareRemainderCheck(agreement));
  const negativeRemainders = (result: LabResult) => [...new Set(checks.flatMap((check) => check(result)))];
  return readInputRows(rows, {
    shape: REPORT_COLUMNS,
    read: (row) => readResultRow(row, negativeRemainders),
    key: ['sample'],
  });
}

function readResultRow(row: Row, negativeRemainders: (result: LabResult) => string[]): LabResult | undefined {
  const result = readSampleRow(row, FIGURES);
  for (const column of ['laboratory', 'method', 'dry_matter_method']) row.optionalName(column);
  if (row.text('reported_on') !== '') row.date('reported_on');
  if (!result) return undefined;
  for (const message of negativeRemainders(result)) row.fault('sample', message);
  return result;
}

/** A report as the first version of a row; a correction overrides version and reason. */
export function resultRow(
  { found, optional }: ReadRow<LabResult>,
  ids: Pick<ResultRow, 'id' | 'sampleId' | 'enteredBy'>,
): ResultRow {
  const figure = (measure: Tested): string | null => {
    const text = optional(columnOf(measure));
    return text === null ? null : plainDecimal(text);
  };
  return {
    ...ids,
    sample: found.sample,
    version: 1,
    reason: null,
    laboratory: optional('laboratory'),
    method: optional('method'),
    dryMatterMethod: optional('dry_matter_method'),
    enteredBy: ids.enteredBy,
    report: null,
    reportedOn: optional('reported_on'),
    basis: found.basis,
    figures: Object.fromEntries(TESTED.map((measure) => [measure, figure(measure)])) as ResultRow['figures'],
  };
}
