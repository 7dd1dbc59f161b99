/**
 * An offer that the caller's party may act on.
 */
import { offerState } from '../../domain/offers/offer.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type OfferRow, readOffer } from '../../store/rows/offer-rows.ts';
import { isId, sideOf } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { Refusal } from '../refusal.ts';

/** Refuses `not-found` where there is none that the caller's party may see. */
export async function findOffer(tx: Transaction, id: string): Promise<OfferRow> {
  const offer = isId(id) ? await readOffer(tx, id) : undefined;
  if (!offer) throw new Refusal('not-found', 'There is no such offer.');
  return offer;
}

/** Refuses as `findOffer`, and `not-yours` where the caller's party advises on it only. */
export async function findOwnOffer(tx: Transaction, context: Context, id: string): Promise<OfferRow> {
  const offer = await findOffer(tx, id);
  if (sideOf(offer, context.caller) === 'adviser') {
    throw new Refusal('not-yours', 'An adviser reads the offer; its two parties answer it.');
  }
  return offer;
}

/** Refuses `offer-over` for an offer that has ended, in words that tell nothing of anybody else. */
export function refuseEnded({ ending, lotNumber, sellerName }: OfferRow): void {
  switch (ending) {
    case null:
      return;
    case 'agreed':
      throw new Refusal('offer-over', 'Both sides have signed this offer; it is an agreement now.');
    case 'lot-sold':
      throw new Refusal('offer-over', `Lot ${lotNumber} of ${sellerName} went to another buyer.`);
    case 'lot-withdrawn':
      throw new Refusal('offer-over', `${sellerName} no longer offers lot ${lotNumber}.`);
    case 'withdrawn':
      throw new Refusal('offer-over', 'This offer was withdrawn.');
    case 'declined':
      throw new Refusal('offer-over', 'This offer was declined.');
  }
}

/** Refuses `offer-lapsed` where nobody may sign it any more. */
export function refuseLapsed({ ending, validUntil }: OfferRow, context: Context): void {
  if (offerState({ ending, validUntil }, context.now()) !== 'lapsed') return;
  throw new Refusal('offer-lapsed', 'The time of this version is over. Send it again as a new version.');
}

/** Refuses `offer-moved` where the caller looked at an older version. */
export function refuseMoved({ version }: OfferRow, seen: number): void {
  if (version === seen) return;
  throw new Refusal(
    'offer-moved',
    `There is a newer version, ${version}; you looked at version ${seen}. Read the newest first.`,
  );
}

/** The party on the other side. */
export function otherParty(offer: Pick<OfferRow, 'sellerId' | 'buyerId'>, { caller }: Context): string {
  return caller.partyId === offer.sellerId ? offer.buyerId : offer.sellerId;
}
