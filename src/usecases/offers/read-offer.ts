/**
 * One offer with all its versions, as its two parties (and who advises one of them) may see it.
 */
import { type OfferState, offerState, type Purpose } from '../../domain/offers/offer.ts';
import { readLot } from '../../store/rows/lot-rows.ts';
import { type OfferRow, type OfferVersionRow, readOfferVersions } from '../../store/rows/offer-rows.ts';
import { sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { lotOf } from '../lots/find-lot.ts';
import { findOffer } from './find-offer.ts';

export interface SignatureView {
  readonly party: string;
  readonly side: 'seller' | 'buyer';
  /** As it was typed. */
  readonly name: string;
  /** ISO 8601, UTC. */
  readonly signedAt: string;
}

export interface VersionView {
  readonly version: number;
  readonly by: 'seller' | 'buyer';
  /** The agreement file, or what closes an agreement. */
  readonly document: Readonly<Record<string, unknown>>;
  readonly fingerprint: string;
  readonly message: string | null;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly validUntil: number;
  readonly effectiveFrom: string | null;
  /** ISO 8601, UTC. */
  readonly sentAt: string;
  readonly signatures: readonly SignatureView[];
}

export interface OfferView {
  readonly id: string;
  readonly purpose: Purpose;
  readonly state: OfferState;
  readonly seller: string;
  readonly buyer: string;
  /** The caller's side; an adviser looks on. */
  readonly side: 'seller' | 'buyer' | 'adviser';
  readonly lot: { readonly id: string; readonly number: number } | undefined;
  readonly agreementId: string | null;
  /** The agreement that came of it. */
  readonly becameId: string | null;
  /** Oldest first; the last is `newest`. */
  readonly versions: readonly VersionView[];
  readonly newest: VersionView;
  /** Whose move it is; undefined for one that has ended. */
  readonly turn: 'yours' | 'theirs' | undefined;
  /** The lot's own tests, as figures by measure. */
  readonly lotTests: readonly Readonly<Record<string, string>>[];
}

/** Refuses `not-allowed`, and `not-found` for an offer that is none of the caller's party's. */
export async function readOffer(
  context: Context,
  { offerId }: { readonly offerId: string },
): Promise<OfferView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const offer = await findOffer(tx, offerId);
    const versions = (await readOfferVersions(tx, offerId)).map((version) => versionView(offer, version));
    const newest = versions.at(-1);
    if (!newest) throw new Error('An offer has no version');
    const lot = offer.lotId === null ? undefined : await readLot(tx, offer.lotId);
    return {
      id: offer.id,
      purpose: offer.purpose,
      state: offerState(offer, context.now()),
      seller: offer.sellerName,
      buyer: offer.buyerName,
      side: sideOf(offer, context.caller),
      lot: lot && { id: lot.id, number: lot.number },
      agreementId: offer.agreementId,
      becameId: offer.becameId,
      versions,
      newest,
      turn: turnOf(offer, context),
      lotTests: lot ? (lotOf(lot.document).tests ?? []).map(figuresOf) : [],
    };
  });
}

/** The figures of a lot's test, without its day, laboratory, method and file. */
export function figuresOf(test: Readonly<Record<string, string | undefined>>): Record<string, string> {
  const words = ['on', 'laboratory', 'method', 'file'];
  return Object.fromEntries(
    Object.entries(test).flatMap(([key, figure]) =>
      words.includes(key) || figure === undefined ? [] : [[key, figure]],
    ),
  );
}

function versionView(offer: OfferRow, row: OfferVersionRow): VersionView {
  const sideOfParty = (partyId: string) => (partyId === offer.sellerId ? 'seller' : 'buyer');
  return {
    version: row.version,
    by: sideOfParty(row.byPartyId),
    document: JSON.parse(row.document) as Record<string, unknown>,
    fingerprint: row.fingerprint,
    message: row.message,
    validUntil: row.validUntil,
    effectiveFrom: row.effectiveFrom,
    sentAt: row.sentAt,
    signatures: row.signatures.map(({ partyId, name, signedAt }) => ({
      party: partyId === offer.sellerId ? offer.sellerName : offer.buyerName,
      side: sideOfParty(partyId),
      name,
      signedAt,
    })),
  };
}

/**
 * Whose move it is: the side that has not signed where one has; else the side that did not send the newest version; the
 * sender's own where its time is over.
 */
export function turnOf(offer: OfferRow, context: Context): 'yours' | 'theirs' | undefined {
  const { caller } = context;
  const state = offerState(offer, context.now());
  if (state !== 'open' && state !== 'lapsed') return undefined;
  const side = sideOf(offer, caller);
  if (side === 'adviser') return 'theirs';
  const isSigned = offer.signedBy.length > 0;
  const isOurs = isSigned ? !offer.signedBy.includes(caller.partyId) : offer.byPartyId !== caller.partyId;
  if (state === 'lapsed') return offer.byPartyId === caller.partyId ? 'yours' : 'theirs';
  return isOurs ? 'yours' : 'theirs';
}
