/**
 * Whether each party of an agreement agrees that the two see each other's lists: words in their order, the last of which counts.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

export interface ListConsentRow {
  readonly partyId: string;
  /** Counts the words of this party, from 1. */
  readonly version: number;
  readonly word: 'given' | 'withdrawn';
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
}

/** The last word of each party of an agreement that has said one. */
export async function readListConsents(
  tx: Transaction,
  agreementId: string,
): Promise<readonly ListConsentRow[]> {
  return await tx.$queryRawUnsafe<ListConsentRow[]>(
    `SELECT DISTINCT ON (party_id) party_id AS "partyId", version, word,
       to_char(recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt"
     FROM list_consent WHERE agreement_id = $1::uuid ORDER BY party_id, version DESC`,
    agreementId,
  );
}

export async function insertListConsent(
  tx: Transaction,
  consent: Omit<ListConsentRow, 'recordedAt'> & { readonly id: string },
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'list_consent', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [consent.id]],
    party_id: ['uuid', [consent.partyId]],
    version: ['int', [consent.version]],
    word: ['text', [consent.word]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}
