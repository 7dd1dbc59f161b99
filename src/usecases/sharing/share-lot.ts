/**
 * Shows a lot to one more party: by a link that is handed over, or at once to a party that the seller deals with already.
 */

import type { Transaction } from '../../store/open-store.ts';
import { readAgreements } from '../../store/rows/agreement-rows.ts';
import { readOffers } from '../../store/rows/offer-rows.ts';
import { insertGuest } from '../../store/rows/share-rows.ts';
import { sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { findOwnLot } from '../lots/find-lot.ts';
import { tell } from '../notices/tell.ts';
import { refuseClosed } from '../offers/make-offer.ts';
import { Refusal } from '../refusal.ts';
import { giveLink, type ShareLink } from './share-link.ts';

/**
 * Gives a link to a lot. Refuses `not-allowed`, `not-found`, `not-yours`, and `lot-closed` unless the lot is posted and
 * its last day is to come.
 */
export async function shareLot(context: Context, { lotId }: { readonly lotId: string }): Promise<ShareLink> {
  permit(context, 'invite');
  return await giveLink(context, {
    subject: { lotId },
    purpose: 'lot-guest',
    check: async (tx) => refuseClosed(await findOwnLot(tx, context, lotId), context),
  });
}

export interface Partner {
  readonly partyId: string;
  readonly name: string;
}

/** Parties with which the caller's has an agreement or an offer, by name. */
async function partnersOf(tx: Transaction, { caller }: Context): Promise<readonly Partner[]> {
  const dealt = [...(await readAgreements(tx)), ...(await readOffers(tx))];
  const partners = dealt.flatMap((of): Partner[] => {
    const side = sideOf(of, caller);
    if (side === 'adviser') return [];
    return side === 'seller'
      ? [{ partyId: of.buyerId, name: of.buyerName }]
      : [{ partyId: of.sellerId, name: of.sellerName }];
  });
  const once = new Map(partners.map((partner) => [partner.partyId, partner]));
  return [...once.values()].sort((a, b) => a.name.localeCompare(b.name));
}

export interface LotGuests {
  /** Parties that were invited, by name. */
  readonly guests: readonly string[];
  /** Partners that were not. */
  readonly partners: readonly Partner[];
}

/** Who was invited to a lot, and who can be without a link. Refuses `not-allowed`, `not-found`, `not-yours`. */
export async function readLotGuests(
  context: Context,
  { lotId }: { readonly lotId: string },
): Promise<LotGuests> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    await findOwnLot(tx, context, lotId);
    const rows = await tx.lotGuest.findMany({
      where: { lotId },
      select: { partyId: true, party: { select: { name: true } } },
    });
    const invited = new Set(rows.map(({ partyId }) => partyId));
    return {
      guests: rows.map(({ party }) => party.name).sort((a, b) => a.localeCompare(b)),
      partners: (await partnersOf(tx, context)).filter(({ partyId }) => !invited.has(partyId)),
    };
  });
}

/**
 * Shows a lot to a partner, who is told. Refuses `not-allowed`, `not-found` (also for a party that is no partner),
 * `not-yours`, `lot-closed`.
 */
export async function shareLotWith(
  context: Context,
  { lotId, partyId, key }: { readonly lotId: string; readonly partyId: string; readonly key?: string },
): Promise<{ readonly name: string }> {
  permit(context, 'keep-lot');
  const asked = { verb: 'share-lot-with', subject: lotId, key, input: { partyId } };
  return await doOnce(context, asked, async (tx) => {
    const lot = await findOwnLot(tx, context, lotId);
    refuseClosed(lot, context);
    const partner = (await partnersOf(tx, context)).find((one) => one.partyId === partyId);
    if (!partner) {
      throw new Refusal(
        'not-found',
        'You have no agreement or offer with that party yet. Make a link and hand it over.',
      );
    }
    const isNew = await insertGuest(tx, {
      lotId,
      partyId,
      sellerId: lot.sellerId,
      invitedAt: stamp(context),
      invitedBy: context.caller.personId,
    });
    if (isNew) await tell(tx, context, [{ partyId, kind: 'lot-shared', subjectId: lotId }]);
    return { name: partner.name };
  });
}
