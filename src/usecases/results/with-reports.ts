/**
 * Results with the reports that came with them, which are kept as files of the agreement.
 */
import type { Transaction } from '../../store/open-store.ts';
import type { Recorded, ResultRow } from '../../store/rows/result-rows.ts';
import { type GivenFile, keepFile } from '../files/keep-file.ts';

interface WithReports {
  readonly rows: readonly ResultRow[];
  readonly reports: Readonly<Record<string, GivenFile>>;
  readonly recorded: Recorded;
}

/** Results with the reports that came with them, which are kept. */
export async function withReports(
  tx: Transaction,
  { rows, reports, recorded }: WithReports,
): Promise<readonly ResultRow[]> {
  const written: ResultRow[] = [];
  for (const row of rows) {
    const report = Object.hasOwn(reports, row.sample) ? reports[row.sample] : undefined;
    written.push(report ? { ...row, report: await keepFile(tx, report, recorded) } : row);
  }
  return written;
}
