/**
 * Where the balance of a sealed season went: the notes of another agreement that bring it forward; and the lenders who are joint
 * payees of what they carry.
 */
import type { Transaction } from '../../open-store.ts';

export interface BroughtForwardRow {
  /** Of the first note. */
  readonly id: string;
  /** The sealed season's. */
  readonly agreementId: string;
  readonly intoId: string;
  /** The number of the agreement that took it up. */
  readonly into: string;
  /** In order of number. */
  readonly documents: readonly { readonly id: string; readonly kind: string; readonly serial: string }[];
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
    `SELECT min(d.id::text) AS id, d.of_agreement_id AS "agreementId", d.agreement_id AS "intoId", a.number AS "into",
       sum(d.payable)::text AS amount,
       to_char(min(d.recorded_at) AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt",
       json_agg(json_build_object('id', d.id, 'kind', d.kind, 'serial', d.serial::text) ORDER BY d.serial) AS documents
     FROM money_document d JOIN agreement a ON a.id = d.agreement_id
     WHERE d.season_rule = 'brought-forward' AND d.of_agreement_id = ANY($1::uuid[])
     GROUP BY d.of_agreement_id, d.agreement_id, a.number`,
    agreementIds,
  );
}

/** A lender who is a joint payee of a note that brought money forward, while that is not settled. */
export interface CarriedLenderRow {
  /** Of the note. */
  readonly id: string;
  readonly agreementId: string;
  readonly lender: string;
  readonly of: string;
  /** ISO 8601, UTC, with milliseconds. */
  readonly recordedAt: string;
}

/** As the notes name them; a payment that the bank gave back settles nothing. */
export async function readCarriedLenders(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly CarriedLenderRow[]> {
  return await tx.$queryRawUnsafe<CarriedLenderRow[]>(
    `SELECT d.id, d.agreement_id AS "agreementId", l.lender, s.number AS "of",
       to_char(d.recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt"
     FROM money_document d JOIN agreement s ON s.id = d.of_agreement_id
     CROSS JOIN LATERAL jsonb_array_elements_text(d.document::jsonb -> 'jointPayees') AS l (lender)
     WHERE d.agreement_id = ANY($1::uuid[]) AND d.season_rule = 'brought-forward' AND d.payable > coalesce((
       SELECT sum(a.amount + a.discount) FROM allocation a
       WHERE a.agreement_id = d.agreement_id AND a.document_id = d.id AND NOT EXISTS (
         SELECT FROM payment_answer w JOIN payment_reversal r ON r.agreement_id = w.agreement_id AND r.payment_id = w.payment_id
         WHERE w.agreement_id = a.agreement_id AND w.id = a.source_id)), 0)
     ORDER BY d.serial, l.lender`,
    agreementIds,
  );
}
