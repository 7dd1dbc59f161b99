/**
 * Ends an offer before both have signed: whoever sent the newest version withdraws it, the other side declines it.
 */
import type { NoticeKind } from '../../domain/notices/notice.ts';
import { insertEndings, lockLot } from '../../store/rows/offer-rows.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tell } from '../notices/tell.ts';
import { findOwnOffer, otherParty, refuseEnded } from './find-offer.ts';

export interface OfferToEnd {
  readonly offerId: string;
  readonly key?: string;
}

/** Returns how it ended. Refuses `not-allowed`, `not-found`, `not-yours`, `offer-over`. */
export async function endOffer(
  context: Context,
  { offerId, key }: OfferToEnd,
): Promise<{ readonly ending: 'withdrawn' | 'declined' }> {
  permit(context, 'make-offer');
  const asked = { verb: 'end-offer', subject: offerId, key, input: { offerId } };
  return await doOnce(context, asked, async (tx) => {
    const { lotId } = await findOwnOffer(tx, context, offerId);
    if (lotId !== null) await lockLot(tx, lotId);
    const offer = await findOwnOffer(tx, context, offerId);
    refuseEnded(offer);
    const ending = offer.byPartyId === context.caller.partyId ? 'withdrawn' : 'declined';
    await insertEndings(tx, [offerId], {
      ending,
      byPartyId: context.caller.partyId,
      endedAt: stamp(context),
    });
    const kind: NoticeKind = ending === 'withdrawn' ? 'offer-withdrawn' : 'offer-declined';
    await tell(tx, context, [{ partyId: otherParty(offer, context), kind, subjectId: offerId }]);
    return { ending };
  });
}
