/**
 * Links by which another party comes to see a lot, or to advise; and what stands once it has come. A link is written by
 * its party and used at the door; only the hash of its secret is kept.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

export type SharePurpose = 'lot-guest' | 'adviser';

interface About {
  readonly lotId: string | null;
  readonly offerId: string | null;
  readonly agreementId: string | null;
}

export interface ShareLinkRow extends About {
  readonly id: string;
  /** The party that gave the link. */
  readonly partyId: string;
  readonly partyName: string;
  readonly purpose: SharePurpose;
  readonly createdBy: string;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly expiresAt: number;
  readonly isUsed: boolean;
}

export interface NewShareLink extends About {
  readonly id: string;
  readonly partyId: string;
  readonly purpose: SharePurpose;
  readonly tokenHash: string;
  readonly createdBy: string;
  readonly createdAt: string;
  readonly expiresAt: string;
}

/** Writes a link, as its party. */
export async function insertShareLink(tx: Transaction, link: NewShareLink): Promise<void> {
  await insertRows(tx, 'share_link', {
    id: ['uuid', [link.id]],
    party_id: ['uuid', [link.partyId]],
    purpose: ['text', [link.purpose]],
    lot_id: ['uuid', [link.lotId]],
    offer_id: ['uuid', [link.offerId]],
    agreement_id: ['uuid', [link.agreementId]],
    token_hash: ['text', [link.tokenHash]],
    created_by: ['uuid', [link.createdBy]],
    created_at: ['timestamptz', [link.createdAt]],
    expires_at: ['timestamptz', [link.expiresAt]],
  });
}

/** At the door: the link of a secret, or undefined. */
export async function readShareLink(tx: Transaction, tokenHash: string): Promise<ShareLinkRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<ShareLinkRow[]>(
    `SELECT s.id, s.party_id AS "partyId", p.name AS "partyName", s.purpose, s.lot_id AS "lotId",
       s.offer_id AS "offerId", s.agreement_id AS "agreementId", s.created_by AS "createdBy",
       (extract(epoch FROM s.expires_at) * 1000)::float8 AS "expiresAt", s.used_at IS NOT NULL AS "isUsed"
     FROM share_link s JOIN party p ON p.id = s.party_id WHERE s.token_hash = $1`,
    tokenHash,
  );
  return row;
}

/** At the door: from now on the link is used. */
export async function markLinkUsed(
  tx: Transaction,
  { id, usedAt, partyId }: { readonly id: string; readonly usedAt: string; readonly partyId: string },
): Promise<void> {
  await tx.$executeRawUnsafe(
    'UPDATE share_link SET used_at = $2::timestamptz, used_by_party = $3::uuid WHERE id = $1::uuid',
    id,
    usedAt,
    partyId,
  );
}

export interface NewGuest {
  readonly lotId: string;
  readonly partyId: string;
  readonly sellerId: string;
  readonly invitedAt: string;
  readonly invitedBy: string;
}

/** A party that may see a lot. Returns whether it is new there. */
export async function insertGuest(tx: Transaction, guest: NewGuest): Promise<boolean> {
  const written = await tx.$executeRawUnsafe(
    `INSERT INTO lot_guest (lot_id, party_id, seller_id, invited_at, invited_by)
     VALUES ($1::uuid, $2::uuid, $3::uuid, $4::timestamptz, $5::uuid) ON CONFLICT DO NOTHING`,
    guest.lotId,
    guest.partyId,
    guest.sellerId,
    guest.invitedAt,
    guest.invitedBy,
  );
  return written > 0;
}

export interface NewAdvice extends About {
  readonly id: string;
  readonly partyId: string;
  readonly adviserId: string;
  readonly since: string;
}

/** A party that advises another. Returns whether it did not yet. */
export async function insertAdvice(tx: Transaction, advice: NewAdvice): Promise<boolean> {
  const written = await tx.$executeRawUnsafe(
    `INSERT INTO advice (id, party_id, adviser_id, lot_id, offer_id, agreement_id, since)
     VALUES ($1::uuid, $2::uuid, $3::uuid, $4::uuid, $5::uuid, $6::uuid, $7::timestamptz) ON CONFLICT DO NOTHING`,
    advice.id,
    advice.partyId,
    advice.adviserId,
    advice.lotId,
    advice.offerId,
    advice.agreementId,
    advice.since,
  );
  return written > 0;
}
