/**
 * A party's own lists of loads and payments, and how it matched the columns of its files. All of it is seen by that party alone,
 * but for its newest lists while both parties agree to see each other's.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

export interface OwnListRow {
  readonly id: string;
  readonly agreementId: string;
  /** `own-loads` or `own-payments`. */
  readonly kind: string;
  readonly fileName: string;
  /** Canonical JSON. */
  readonly rows: string;
  readonly rowCount: number;
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
}

export interface ListWanted extends Pick<OwnListRow, 'agreementId' | 'kind'> {
  /** Who brought it: the other side's is there while both agree. */
  readonly partyId: string;
}

/** The newest list of a kind that a party brought for an agreement; undefined where there is none that may be seen. */
export async function readOwnList(
  tx: Transaction,
  { agreementId, kind, partyId }: ListWanted,
): Promise<OwnListRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<OwnListRow[]>(
    `SELECT id, agreement_id AS "agreementId", kind, file_name AS "fileName", rows, row_count AS "rowCount",
       to_char(recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt"
     FROM own_list WHERE agreement_id = $1::uuid AND kind = $2 AND party_id = $3::uuid
     ORDER BY recorded_at DESC, id DESC LIMIT 1`,
    agreementId,
    kind,
    partyId,
  );
  return row;
}

export async function insertOwnList(
  tx: Transaction,
  list: Pick<OwnListRow, 'id' | 'kind' | 'fileName' | 'rows' | 'rowCount'> & { readonly partyId: string },
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'own_list', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [list.id]],
    party_id: ['uuid', [list.partyId]],
    file_name: ['text', [list.fileName]],
    rows: ['text', [list.rows]],
    row_count: ['int', [list.rowCount]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
    kind: ['text', [list.kind]],
  });
}

export interface MatchKey {
  readonly kind: string;
  /** SHA-256 of the header. */
  readonly header: string;
}

/** How the party matched such a file before, as JSON; undefined where it never did. */
export async function readKeptMatch(
  tx: Transaction,
  { kind, header }: MatchKey,
): Promise<string | undefined> {
  const [row] = await tx.$queryRawUnsafe<{ match: string }[]>(
    'SELECT match FROM kept_match WHERE kind = $1 AND header = $2',
    kind,
    header,
  );
  return row?.match;
}

/** Keeps a match in place of the one before. */
export async function keepMatch(
  tx: Transaction,
  {
    kind,
    header,
    match,
    partyId,
    keptAt,
  }: MatchKey & {
    readonly match: string;
    readonly partyId: string;
    readonly keptAt: string;
  },
): Promise<void> {
  await tx.$executeRawUnsafe(
    `INSERT INTO kept_match (party_id, kind, header, match, kept_at) VALUES ($1::uuid, $2, $3, $4, $5::timestamptz)
     ON CONFLICT (party_id, kind, header) DO UPDATE SET match = excluded.match, kept_at = excluded.kept_at`,
    partyId,
    kind,
    header,
    match,
    keptAt,
  );
}
