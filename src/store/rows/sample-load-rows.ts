/**
 * Which loads a sample stands for, and which samples something has settled from.
 */
import type { Transaction } from '../open-store.ts';

export interface SampleLoadRow {
  /** Null for a load that names none. */
  readonly sample: string | null;
  readonly loadId: string;
  readonly ticket: string;
  readonly deliveredOn: string;
}

/** The loads of an agreement that are not void, each with the sample that it names; first delivered first. */
export async function readSampleLoads(
  tx: Transaction,
  agreementId: string,
): Promise<readonly SampleLoadRow[]> {
  return await tx.$queryRawUnsafe<SampleLoadRow[]>(
    `SELECT s.name AS sample, l.id AS "loadId", l.ticket, l.delivered_on::text AS "deliveredOn" FROM current_load l
     LEFT JOIN sample s ON s.agreement_id = l.agreement_id AND s.id = l.sample_id
     WHERE l.agreement_id = $1::uuid AND NOT l.is_void ORDER BY l.delivered_at, l.id`,
    agreementId,
  );
}

/** The ids of samples from a result of which a load's settlement, as it stands, was worked out. */
export async function readSettledSamples(tx: Transaction, agreementId: string): Promise<ReadonlySet<string>> {
  const rows = await tx.$queryRawUnsafe<{ sampleId: string }[]>(
    `SELECT DISTINCT r.sample_id AS "sampleId" FROM settlement t
     JOIN result r ON r.agreement_id = t.agreement_id AND r.id = t.result_id
     WHERE t.agreement_id = $1::uuid AND NOT EXISTS (
       SELECT FROM settlement n
       WHERE n.agreement_id = t.agreement_id AND n.load_id = t.load_id AND n.version > t.version)`,
    agreementId,
  );
  return new Set(rows.map(({ sampleId }) => sampleId));
}
