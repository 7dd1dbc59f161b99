/**
 * What a buyer keeps of its silos, seen by its party alone. Entries are read by their newest version.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

export interface SiloEntryRow {
  readonly siloId: string;
  readonly id: string;
  readonly version: number;
  readonly kind: string;
  /** Canonical JSON; null where it is withdrawn. */
  readonly content: string | null;
  /** Why this version; null for the first. */
  readonly reason: string | null;
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
}

/** Every version of every entry that the transaction's party keeps under an agreement, in the order of recording. */
export async function readSiloEntries(
  tx: Transaction,
  agreementId: string,
): Promise<readonly SiloEntryRow[]> {
  return await tx.$queryRawUnsafe<SiloEntryRow[]>(
    `SELECT silo_id AS "siloId", id, version, kind, content, reason,
       to_char(recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt"
     FROM silo_entry WHERE agreement_id = $1::uuid ORDER BY recorded_at, id, version`,
    agreementId,
  );
}

interface OfParty {
  readonly partyId: string;
}

export async function insertSilo(
  tx: Transaction,
  { siloId, partyId }: OfParty & { readonly siloId: string },
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'silo', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [siloId]],
    party_id: ['uuid', [partyId]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

export async function insertSiloEntry(
  tx: Transaction,
  entry: Omit<SiloEntryRow, 'recordedAt'> & OfParty,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'silo_entry', {
    agreement_id: ['uuid', [agreementId]],
    silo_id: ['uuid', [entry.siloId]],
    id: ['uuid', [entry.id]],
    version: ['int', [entry.version]],
    party_id: ['uuid', [entry.partyId]],
    kind: ['text', [entry.kind]],
    content: ['text', [entry.content]],
    reason: ['text', [entry.reason]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}
