/**
 * Offers with their versions, signatures and ends, as a party may see them.
 */
import type { Ending, Purpose } from '../../domain/offers/offer.ts';
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { SignatureRow } from './signing-rows.ts';

export interface OfferRow {
  readonly id: string;
  readonly purpose: Purpose;
  readonly sellerId: string;
  readonly sellerName: string;
  readonly buyerId: string;
  readonly buyerName: string;
  readonly lotId: string | null;
  readonly lotNumber: number | null;
  readonly agreementId: string | null;
  readonly ending: Ending | null;
  readonly endedBy: string | null;
  readonly endedAt: string | null;
  /** The newest version. */
  readonly version: number;
  readonly byPartyId: string;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly validUntil: number;
  readonly fingerprint: string;
  readonly sentAt: string;
  /** Parties whose signature stands under the newest version. */
  readonly signedBy: readonly string[];
  /** The agreement that came of it, for the buyer and the seller. */
  readonly becameId: string | null;
}

const UTC = `AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'`;

const SELECT = `
  SELECT o.id, o.purpose, o.seller_id AS "sellerId", s.name AS "sellerName", o.buyer_id AS "buyerId",
    b.name AS "buyerName", o.lot_id AS "lotId", l.number AS "lotNumber", o.agreement_id AS "agreementId",
    e.ending, e.by_party_id AS "endedBy", to_char(e.ended_at ${UTC}) AS "endedAt",
    v.version, v.by_party_id AS "byPartyId", (extract(epoch FROM v.valid_until) * 1000)::float8 AS "validUntil",
    v.fingerprint, to_char(v.recorded_at ${UTC}) AS "sentAt",
    ARRAY(SELECT g.party_id::text FROM signature g WHERE g.offer_id = o.id AND g.version = v.version ORDER BY 1) AS "signedBy",
    (SELECT n.agreement_id FROM signing n WHERE n.offer_id = o.id) AS "becameId"
  FROM offer o
  JOIN party s ON s.id = o.seller_id
  JOIN party b ON b.id = o.buyer_id
  JOIN LATERAL (SELECT * FROM offer_version WHERE offer_id = o.id ORDER BY version DESC LIMIT 1) v ON true
  LEFT JOIN lot l ON l.id = o.lot_id
  LEFT JOIN offer_ending e ON e.offer_id = o.id`;

/** All offers that the transaction may see, the last sent first. */
export async function readOffers(tx: Transaction): Promise<readonly OfferRow[]> {
  return await tx.$queryRawUnsafe<OfferRow[]>(`${SELECT} ORDER BY v.recorded_at DESC, o.id`);
}

/** One offer, or undefined where there is none that the transaction may see. */
export async function readOffer(tx: Transaction, id: string): Promise<OfferRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<OfferRow[]>(`${SELECT} WHERE o.id = $1::uuid`, id);
  return row;
}

export interface OfferVersionRow {
  readonly version: number;
  readonly byPartyId: string;
  /** Canonical JSON. */
  readonly document: string;
  readonly fingerprint: string;
  readonly message: string | null;
  readonly validUntil: number;
  readonly effectiveFrom: string | null;
  readonly sentAt: string;
  readonly sentBy: string;
  readonly signatures: readonly SignatureRow[];
}

/** Every version of an offer, oldest first. */
export async function readOfferVersions(
  tx: Transaction,
  offerId: string,
): Promise<readonly OfferVersionRow[]> {
  return await tx.$queryRawUnsafe<OfferVersionRow[]>(
    `SELECT v.version, v.by_party_id AS "byPartyId", v.document, v.fingerprint, v.message,
       (extract(epoch FROM v.valid_until) * 1000)::float8 AS "validUntil", v.effective_from::text AS "effectiveFrom",
       to_char(v.recorded_at ${UTC}) AS "sentAt", v.recorded_by AS "sentBy",
       coalesce((SELECT json_agg(json_build_object('partyId', s.party_id, 'personId', s.person_id, 'name', s.name,
           'fingerprint', s.fingerprint, 'signedAt', to_char(s.signed_at ${UTC})) ORDER BY s.signed_at, s.party_id)
         FROM signature s WHERE s.offer_id = v.offer_id AND s.version = v.version), '[]') AS signatures
     FROM offer_version v WHERE v.offer_id = $1::uuid ORDER BY v.version`,
    offerId,
  );
}

export interface NewOffer
  extends Pick<OfferRow, 'id' | 'purpose' | 'sellerId' | 'buyerId' | 'lotId' | 'agreementId'> {
  readonly createdAt: string;
}

/** Writes an offer without a version. The database refuses one on a lot that is not open to the buyer. */
export async function insertOffer(tx: Transaction, offer: NewOffer): Promise<void> {
  await insertRows(tx, 'offer', {
    id: ['uuid', [offer.id]],
    purpose: ['text', [offer.purpose]],
    seller_id: ['uuid', [offer.sellerId]],
    buyer_id: ['uuid', [offer.buyerId]],
    lot_id: ['uuid', [offer.lotId]],
    agreement_id: ['uuid', [offer.agreementId]],
    created_at: ['timestamptz', [offer.createdAt]],
  });
}

export interface NewOfferVersion {
  readonly offerId: string;
  readonly version: number;
  readonly byPartyId: string;
  readonly document: string;
  readonly fingerprint: string;
  readonly message: string | null;
  /** ISO 8601. */
  readonly validUntil: string;
  readonly effectiveFrom: string | null;
  readonly recordedAt: string;
  readonly recordedBy: string;
}

export async function insertOfferVersion(tx: Transaction, version: NewOfferVersion): Promise<void> {
  await insertRows(tx, 'offer_version', {
    offer_id: ['uuid', [version.offerId]],
    version: ['int', [version.version]],
    by_party_id: ['uuid', [version.byPartyId]],
    document: ['text', [version.document]],
    fingerprint: ['text', [version.fingerprint]],
    message: ['text', [version.message]],
    valid_until: ['timestamptz', [version.validUntil]],
    effective_from: ['date', [version.effectiveFrom]],
    recorded_at: ['timestamptz', [version.recordedAt]],
    recorded_by: ['uuid', [version.recordedBy]],
  });
}

/** Ends offers; an end stands. */
export async function insertEndings(
  tx: Transaction,
  ids: readonly string[],
  {
    ending,
    byPartyId,
    endedAt,
  }: { readonly ending: Ending; readonly byPartyId: string | null; readonly endedAt: string },
): Promise<void> {
  await insertRows(tx, 'offer_ending', {
    offer_id: ['uuid', ids],
    ending: ['text', ids.map(() => ending)],
    by_party_id: ['uuid', ids.map(() => byPartyId)],
    ended_at: ['timestamptz', ids.map(() => endedAt)],
  });
}

export async function insertSignature(
  tx: Transaction,
  { offerId, version, ...signature }: SignatureRow & { readonly offerId: string; readonly version: number },
): Promise<void> {
  await insertRows(tx, 'signature', {
    offer_id: ['uuid', [offerId]],
    version: ['int', [version]],
    party_id: ['uuid', [signature.partyId]],
    person_id: ['uuid', [signature.personId]],
    name: ['text', [signature.name]],
    fingerprint: ['text', [signature.fingerprint]],
    signed_at: ['timestamptz', [signature.signedAt]],
  });
}

/** Makes whoever else would act on the lot wait until this transaction ends. */
export async function lockLot(tx: Transaction, lotId: string): Promise<void> {
  await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`lot ${lotId}`}, 0))::text`;
}
