/**
 * Lots with what is said of them now, as a party may see them.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

export type LotState = 'draft' | 'posted' | 'withdrawn' | 'sold';
export type Audience = 'everyone' | 'invited';

export interface LotRow {
  readonly id: string;
  readonly number: number;
  readonly sellerId: string;
  readonly sellerName: string;
  readonly state: LotState;
  readonly audience: Audience;
  /** Milliseconds since 1970-01-01T00:00:00Z; null for a lot that was never posted. */
  readonly openUntil: number | null;
  /** While one side's signature stands under an offer on it. */
  readonly heldUntil: number | null;
  readonly version: number;
  /** Canonical JSON. */
  readonly document: string;
  readonly updatedAt: string;
  /** Told to the seller and, once both have signed, to the buyer. */
  readonly address: string | null;
  /** What anybody may see of it, where the seller chose that. */
  readonly listing: string | null;
}

const SELECT = `
  SELECT l.id, l.number, l.seller_id AS "sellerId", s.name AS "sellerName", l.state, l.audience,
    (extract(epoch FROM l.open_until) * 1000)::float8 AS "openUntil",
    (extract(epoch FROM l.held_until) * 1000)::float8 AS "heldUntil",
    v.version, v.document, to_char(v.recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "updatedAt",
    nullif((SELECT address FROM lot_address a WHERE a.lot_id = l.id ORDER BY a.version DESC LIMIT 1), '') AS address,
    (SELECT p.document FROM public_listing p WHERE p.lot_id = l.id) AS listing
  FROM lot l
  JOIN party s ON s.id = l.seller_id
  JOIN LATERAL (SELECT * FROM lot_version WHERE lot_id = l.id ORDER BY version DESC LIMIT 1) v ON true`;

/** All lots that the transaction may see, the newest first. */
export async function readLots(tx: Transaction): Promise<readonly LotRow[]> {
  return await tx.$queryRawUnsafe<LotRow[]>(`${SELECT} ORDER BY l.created_at DESC, l.id`);
}

/** One lot, or undefined where there is none that the transaction may see. */
export async function readLot(tx: Transaction, id: string): Promise<LotRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<LotRow[]>(`${SELECT} WHERE l.id = $1::uuid`, id);
  return row;
}

/** Writes a draft. The database gives it its number. */
export async function insertLot(
  tx: Transaction,
  lot: {
    readonly id: string;
    readonly sellerId: string;
    readonly createdAt: string;
    readonly createdBy: string;
  },
): Promise<void> {
  await insertRows(tx, 'lot', {
    id: ['uuid', [lot.id]],
    seller_id: ['uuid', [lot.sellerId]],
    number: ['int', [0]],
    state: ['text', ['draft']],
    audience: ['text', ['everyone']],
    created_at: ['timestamptz', [lot.createdAt]],
    created_by: ['uuid', [lot.createdBy]],
  });
}

export interface NewLotVersion {
  readonly lotId: string;
  readonly version: number;
  readonly document: string;
  /** Whether others may see it. */
  readonly isShown: boolean;
  readonly recordedAt: string;
  readonly recordedBy: string;
}

export async function insertLotVersion(tx: Transaction, version: NewLotVersion): Promise<void> {
  await insertRows(tx, 'lot_version', {
    lot_id: ['uuid', [version.lotId]],
    version: ['int', [version.version]],
    document: ['text', [version.document]],
    is_shown: ['boolean', [version.isShown ? 'true' : 'false']],
    recorded_at: ['timestamptz', [version.recordedAt]],
    recorded_by: ['uuid', [version.recordedBy]],
  });
}

/** Writes where the feed lies. */
export async function insertAddress(
  tx: Transaction,
  address: Omit<NewLotVersion, 'document' | 'isShown'> & { readonly address: string },
): Promise<void> {
  await insertRows(tx, 'lot_address', {
    lot_id: ['uuid', [address.lotId]],
    version: ['int', [address.version]],
    address: ['text', [address.address]],
    recorded_at: ['timestamptz', [address.recordedAt]],
    recorded_by: ['uuid', [address.recordedBy]],
  });
}
