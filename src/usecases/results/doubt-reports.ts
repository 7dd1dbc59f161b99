/**
 * What a laboratory clerk would ask about results, with what the agreement and its tickets know.
 */
import type { Feed } from '../../domain/agreement/measures.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import { clerkChecks } from '../../domain/samples/clerk-checks.ts';
import type { LabResult } from '../../domain/samples/lab-result.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readMoistureReadings } from '../../store/rows/sample-rows.ts';
import { groupRows } from '../group-rows.ts';

export interface ReportsToDoubt {
  readonly agreementId: string;
  readonly feed: Feed;
  readonly results: readonly LabResult[];
}

/** Questions in words; none where nothing is odd. */
export async function doubtReports(
  tx: Transaction,
  { agreementId, feed, results }: ReportsToDoubt,
): Promise<readonly string[]> {
  if (results.length === 0) return [];
  const samples = results.map(({ sample }) => sample);
  const readings = groupRows(await readMoistureReadings(tx, agreementId, samples), ({ sample }) => sample);
  return results.flatMap((result) =>
    clerkChecks(result, {
      feed,
      readings: (readings.get(result.sample) ?? []).map(({ ticket, moisture }) => ({
        ticket,
        moisture: decimal(moisture),
      })),
    }),
  );
}
