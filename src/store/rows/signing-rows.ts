/**
 * What both parties signed here: versions of agreements with the signatures under them, and early ends.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

/** A signature as the journal remembers it. */
export interface SignatureRow {
  readonly partyId: string;
  readonly personId: string;
  readonly name: string;
  readonly fingerprint: string;
  /** ISO 8601, UTC, with milliseconds. */
  readonly signedAt: string;
}

export interface SigningRow {
  readonly id: string;
  readonly versionId: string;
  readonly sellerId: string;
  /** Counted for the seller; null for an amendment. */
  readonly serial: number | null;
  readonly offerId: string;
  readonly offerVersion: number;
  readonly lotId: string | null;
  readonly effectiveFrom: string | null;
  /** By the party's id. */
  readonly signatures: readonly SignatureRow[];
}

export interface ClosingRow {
  readonly id: string;
  readonly lastDeliveryOn: string;
  readonly offerId: string;
  readonly offerVersion: number;
  readonly fingerprint: string;
  readonly signatures: readonly SignatureRow[];
}

/** The signatures under an offer's version, in a list of JSON. */
const SIGNATURES = `coalesce((
  SELECT json_agg(json_build_object('partyId', s.party_id, 'personId', s.person_id, 'name', s.name,
    'fingerprint', s.fingerprint,
    'signedAt', to_char(s.signed_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')) ORDER BY s.party_id)
  FROM signature s WHERE s.offer_id = g.offer_id AND s.version = g.offer_version), '[]') AS signatures`;

/** How each version of an agreement was signed, oldest first; versions that were signed elsewhere have none. */
export async function readSignings(tx: Transaction, agreementId: string): Promise<readonly SigningRow[]> {
  return await tx.$queryRawUnsafe<SigningRow[]>(
    `SELECT g.id, g.version_id AS "versionId", g.seller_id AS "sellerId", g.serial, g.offer_id AS "offerId",
       g.offer_version AS "offerVersion", g.lot_id AS "lotId", g.effective_from::text AS "effectiveFrom", ${SIGNATURES}
     FROM signing g WHERE g.agreement_id = $1::uuid ORDER BY g.recorded_at, g.id`,
    agreementId,
  );
}

/** The early end of an agreement, or undefined. */
export async function readClosing(tx: Transaction, agreementId: string): Promise<ClosingRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<ClosingRow[]>(
    `SELECT g.id, g.last_delivery_on::text AS "lastDeliveryOn", g.offer_id AS "offerId",
       g.offer_version AS "offerVersion", v.fingerprint, ${SIGNATURES}
     FROM agreement_closing g
     JOIN offer_version v ON v.offer_id = g.offer_id AND v.version = g.offer_version
     WHERE g.agreement_id = $1::uuid`,
    agreementId,
  );
  return row;
}

/** The last day of delivery of each agreement that was closed early, by the agreement's id. */
export async function readClosingDays(tx: Transaction): Promise<ReadonlyMap<string, string>> {
  const rows = await tx.$queryRawUnsafe<{ agreementId: string; day: string }[]>(
    'SELECT agreement_id AS "agreementId", last_delivery_on::text AS day FROM agreement_closing',
  );
  return new Map(rows.map(({ agreementId, day }) => [agreementId, day]));
}

/** The number that each agreement has among its seller's, by the agreement's id. */
export async function readSerials(tx: Transaction): Promise<ReadonlyMap<string, number>> {
  const rows = await tx.$queryRawUnsafe<{ agreementId: string; serial: number }[]>(
    'SELECT agreement_id AS "agreementId", serial FROM signing WHERE serial IS NOT NULL',
  );
  return new Map(rows.map(({ agreementId, serial }) => [agreementId, serial]));
}

/** A row to write under an agreement. */
interface Written {
  readonly agreementId: string;
  readonly offerId: string;
  readonly offerVersion: number;
  readonly recordedAt: string;
  readonly recordedBy: string;
}

function written(of: Written & { readonly id: string }) {
  return {
    agreement_id: ['uuid', [of.agreementId]],
    id: ['uuid', [of.id]],
    offer_id: ['uuid', [of.offerId]],
    offer_version: ['int', [of.offerVersion]],
    recorded_at: ['timestamptz', [of.recordedAt]],
    recorded_by: ['uuid', [of.recordedBy]],
  } as const;
}

/** Writes how a version was signed. The database numbers it, ends the offer, and sells the lot. */
export async function insertSigning(
  tx: Transaction,
  signing: Written & Pick<SigningRow, 'id' | 'versionId' | 'sellerId' | 'effectiveFrom'>,
): Promise<void> {
  await insertRows(tx, 'signing', {
    ...written(signing),
    version_id: ['uuid', [signing.versionId]],
    seller_id: ['uuid', [signing.sellerId]],
    effective_from: ['date', [signing.effectiveFrom]],
  });
}

/** Writes the early end of an agreement. */
export async function insertClosing(
  tx: Transaction,
  closing: Written & Pick<ClosingRow, 'id' | 'lastDeliveryOn'>,
): Promise<void> {
  await insertRows(tx, 'agreement_closing', {
    ...written(closing),
    last_delivery_on: ['date', [closing.lastDeliveryOn]],
  });
}
