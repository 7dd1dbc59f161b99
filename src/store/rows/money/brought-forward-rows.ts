/**
 * Where the balance of a sealed season went: the note of another agreement that brings it forward.
 */
import type { Transaction } from '../../open-store.ts';

export interface BroughtForwardRow {
  /** Of the note. */
  readonly id: string;
  /** The sealed season's. */
  readonly agreementId: string;
  readonly intoId: string;
  /** The number of the agreement that took it up. */
  readonly into: string;
  /** The balance as both signed it, above zero where the buyer owed. */
  readonly amount: string;
  /** ISO 8601, UTC, with milliseconds. */
  readonly recordedAt: string;
}

/** Of some sealed seasons; one whose balance nobody has brought forward is not there. */
export async function readBroughtForward(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly BroughtForwardRow[]> {
  return await tx.$queryRawUnsafe<BroughtForwardRow[]>(
    `SELECT d.id, d.of_agreement_id AS "agreementId", d.agreement_id AS "intoId", a.number AS "into",
       d.payable::text AS amount, to_char(d.recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt"
     FROM money_document d JOIN agreement a ON a.id = d.agreement_id
     WHERE d.season_rule = 'brought-forward' AND d.of_agreement_id = ANY($1::uuid[])`,
    agreementIds,
  );
}
