/**
 * Every row about money comes with the fact that the journal remembers of it and the moment it was recorded.
 */
import type { Transaction } from '../../open-store.ts';

/** A row with its fact. */
export interface Stamped<Fact> {
  readonly id: string;
  readonly agreementId: string;
  readonly fact: Fact;
  /** ISO 8601, UTC, with milliseconds. */
  readonly recordedAt: string;
}

/** The columns that every such row of table `t` has. */
export const STAMP = `t.id, t.agreement_id AS "agreementId",
  to_char(t.recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt"`;

/** Which agreements to read of: some of those that the transaction may see. */
export const OF_AGREEMENTS = 't.agreement_id = ANY($1::uuid[])';

/** What a source settles of documents, as JSON; `source` is the column that has the source's id. */
export const allocatedBy = (source: string) => `coalesce((
  SELECT json_agg(json_build_object('document', a.document_id, 'amount', a.amount::text, 'discount', a.discount::text) ORDER BY a.place)
  FROM allocation a WHERE a.agreement_id = t.agreement_id AND a.source_id = ${source}), '[]')`;

/** The agreement of a row by its id, or undefined where there is none that the transaction may see. */
export async function findAgreementOf(
  tx: Transaction,
  table: 'payment' | 'hold' | 'set_off' | 'lien_notice' | 'season_note',
  id: string,
): Promise<string | undefined> {
  const [row] = await tx.$queryRawUnsafe<{ agreementId: string }[]>(
    `SELECT agreement_id AS "agreementId" FROM "${table}" WHERE id = $1::uuid`,
    id,
  );
  return row?.agreementId;
}
