/**
 * Closing statements, who signed them, and the seal that the second signature sets.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

export interface SeasonCloseRow {
  readonly id: string;
  readonly agreementId: string;
  /** Canonical JSON. */
  readonly statement: string;
  readonly fingerprint: string;
  readonly entryCount: number;
  readonly root: string;
  readonly byPartyId: string;
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
  readonly signatures: readonly {
    readonly partyId: string;
    readonly name: string;
    /** ISO 8601, UTC. */
    readonly signedAt: string;
  }[];
}

const MOMENT = `'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'`;

/** The newest closing statement of an agreement; undefined where none was drawn up. */
export async function readSeasonClose(
  tx: Transaction,
  agreementId: string,
): Promise<SeasonCloseRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<SeasonCloseRow[]>(
    `SELECT c.id, c.agreement_id AS "agreementId", c.statement, c.fingerprint, c.entry_count AS "entryCount", c.root,
       c.by_party_id AS "byPartyId", to_char(c.recorded_at AT TIME ZONE 'UTC', ${MOMENT}) AS "recordedAt",
       coalesce((
         SELECT json_agg(json_build_object('partyId', s.party_id, 'name', s.name,
           'signedAt', to_char(s.signed_at AT TIME ZONE 'UTC', ${MOMENT})) ORDER BY s.signed_at, s.party_id)
         FROM season_signature s WHERE s.agreement_id = c.agreement_id AND s.close_id = c.id), '[]') AS signatures
     FROM season_close c
     LEFT JOIN season_seal z ON z.agreement_id = c.agreement_id AND z.close_id = c.id
     WHERE c.agreement_id = $1::uuid ORDER BY z.close_id IS NULL, c.recorded_at DESC, c.id DESC LIMIT 1`,
    agreementId,
  );
  return row;
}

/** The agreement of a closing statement; undefined where there is none that the transaction may see. */
export async function findSeasonClose(tx: Transaction, id: string): Promise<string | undefined> {
  const [row] = await tx.$queryRawUnsafe<{ agreementId: string }[]>(
    'SELECT agreement_id AS "agreementId" FROM season_close WHERE id = $1::uuid',
    id,
  );
  return row?.agreementId;
}

export interface SealRow {
  readonly closeId: string;
  readonly root: string;
  readonly entryCount: number;
  /** ISO 8601, UTC. */
  readonly sealedAt: string;
}

export async function readSeal(tx: Transaction, agreementId: string): Promise<SealRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<SealRow[]>(
    `SELECT close_id AS "closeId", root, entry_count AS "entryCount",
       to_char(sealed_at AT TIME ZONE 'UTC', ${MOMENT}) AS "sealedAt"
     FROM season_seal WHERE agreement_id = $1::uuid`,
    agreementId,
  );
  return row;
}

/** Whether both parties have signed the season shut, also for a laboratory, which sees no seal. */
export async function isSealed(tx: Transaction, agreementId: string): Promise<boolean> {
  const [row] = await tx.$queryRawUnsafe<{ isSealed: boolean }[]>(
    'SELECT season_is_sealed($1::uuid) AS "isSealed"',
    agreementId,
  );
  return row?.isSealed ?? false;
}

export async function insertSeasonClose(
  tx: Transaction,
  close: Pick<SeasonCloseRow, 'id' | 'statement' | 'fingerprint' | 'entryCount' | 'root' | 'byPartyId'>,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'season_close', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [close.id]],
    statement: ['text', [close.statement]],
    fingerprint: ['text', [close.fingerprint]],
    entry_count: ['int', [close.entryCount]],
    root: ['text', [close.root]],
    by_party_id: ['uuid', [close.byPartyId]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

export async function insertSeasonSignature(
  tx: Transaction,
  signature: {
    readonly closeId: string;
    readonly partyId: string;
    readonly name: string;
    readonly fingerprint: string;
  },
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'season_signature', {
    agreement_id: ['uuid', [agreementId]],
    close_id: ['uuid', [signature.closeId]],
    party_id: ['uuid', [signature.partyId]],
    name: ['text', [signature.name]],
    fingerprint: ['text', [signature.fingerprint]],
    signed_at: ['timestamptz', [recordedAt]],
    signed_by: ['uuid', [recordedBy]],
  });
}
