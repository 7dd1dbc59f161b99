/**
 * Rows for which a party accepts the record, by the fingerprint of what both lists say. Seen by that party alone.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

export interface AcceptedRowRow {
  readonly partyId: string;
  /** `own-loads` or `own-payments`. */
  readonly kind: string;
  /** 64 hexadecimal digits. */
  readonly fingerprint: string;
  /** Counts the words on this fingerprint, from 1. */
  readonly version: number;
  readonly word: 'accepted' | 'taken-back';
}

/** The last word that the transaction's party said on each fingerprint of a kind of list. */
export async function readAcceptedRows(
  tx: Transaction,
  { agreementId, kind }: { readonly agreementId: string; readonly kind: string },
): Promise<readonly AcceptedRowRow[]> {
  return await tx.$queryRawUnsafe<AcceptedRowRow[]>(
    `SELECT DISTINCT ON (fingerprint) party_id AS "partyId", kind, fingerprint, version, word
     FROM accepted_row WHERE agreement_id = $1::uuid AND kind = $2 ORDER BY fingerprint, version DESC`,
    agreementId,
    kind,
  );
}

export async function insertAcceptedRow(
  tx: Transaction,
  row: AcceptedRowRow & { readonly id: string },
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'accepted_row', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [row.id]],
    party_id: ['uuid', [row.partyId]],
    kind: ['text', [row.kind]],
    fingerprint: ['text', [row.fingerprint]],
    version: ['int', [row.version]],
    word: ['text', [row.word]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}
