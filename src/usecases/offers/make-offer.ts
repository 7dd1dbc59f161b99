/**
 * A buyer's first offer on a lot: a whole agreement, with the time for which it stands.
 */
import { checkLot } from '../../domain/lots/lot-document.ts';
import { checkTerms } from '../../domain/offers/check-terms.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type LotRow, readLot } from '../../store/rows/lot-rows.ts';
import { insertOffer, lockLot, readOffers } from '../../store/rows/offer-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tell } from '../notices/tell.ts';
import { partyName } from '../people/party-name.ts';
import { Refusal } from '../refusal.ts';
import { readSending, type Sending, sendVersion, termProblems } from './send-version.ts';

export interface OfferToMake extends Sending {
  readonly lotId: string;
  /** The agreement file, parsed. Its number and the two parties are filled in here. */
  readonly document: Readonly<Record<string, unknown>>;
  readonly key?: string;
}

/**
 * Returns the offer's id. Refuses `not-allowed`, `bad-input` (with every fault and its path), `not-found`, `not-yours`
 * for one's own lot and for one that the party advises on, `lot-closed` where the lot takes no offers, `offer-open` where the party has one on it already.
 */
export async function makeOffer(
  context: Context,
  { lotId, document, key, ...sending }: OfferToMake,
): Promise<{ readonly offerId: string }> {
  permit(context, 'make-offer');
  const { partyId } = context.caller;
  const asked = { verb: 'make-offer', subject: lotId, key, input: { document, ...sending } };
  return await doOnce(context, asked, async (tx) => {
    if (!isId(lotId)) throw new Refusal('not-found', 'There is no such lot.');
    await lockLot(tx, lotId);
    const lot = await readLot(tx, lotId);
    if (!lot) throw new Refusal('not-found', 'There is no such lot.');
    if (lot.sellerId === partyId) throw new Refusal('not-yours', 'This lot is your own.');
    await refuseAdviser(tx, { partyId, lotId });
    refuseClosed(lot, context);
    const open = (await readOffers(tx)).find(
      (offer) => offer.lotId === lotId && offer.buyerId === partyId && offer.ending === null,
    );
    if (open) {
      throw new Refusal(
        'offer-open',
        'You have an offer on this lot already. Send a new version of that one.',
      );
    }
    const offerId = context.newId();
    const terms = {
      ...document,
      id: offerReference(lot.number, offerId),
      seller: lot.sellerName,
      buyer: await partyName(tx, partyId),
    };
    const { problems } = checkTerms(terms);
    const { lot: said } = checkLot(JSON.parse(lot.document));
    const otherFeed =
      said && document['feed'] !== said.feed
        ? [{ column: '$.feed', message: `must be the lot’s own, ${JSON.stringify(said.feed)}` }]
        : [];
    const { message, days } = readSending(sending, [...termProblems(problems), ...otherFeed]);
    await insertOffer(tx, {
      id: offerId,
      purpose: 'agreement',
      sellerId: lot.sellerId,
      buyerId: partyId,
      lotId,
      agreementId: null,
      createdAt: stamp(context),
    });
    await sendVersion(tx, context, {
      offerId,
      version: 1,
      document: terms,
      message,
      days,
      effectiveFrom: null,
    });
    await tell(tx, context, [{ partyId: lot.sellerId, kind: 'offer-came', subjectId: offerId }]);
    return { offerId };
  });
}

/** Who advises a party on a lot, or on an offer on it, has seen too much to bid there. */
async function refuseAdviser(
  tx: Transaction,
  { partyId, lotId }: { readonly partyId: string; readonly lotId: string },
): Promise<void> {
  const advises = await tx.advice.findFirst({
    where: { adviserId: partyId, endedAt: null, OR: [{ lotId }, { offer: { lotId } }] },
    select: { party: { select: { name: true } } },
  });
  if (!advises) return;
  throw new Refusal(
    'not-yours',
    `You advise ${advises.party.name} on this lot. End that advice before you make an offer of your own.`,
  );
}

/** "L3-A7F2": the lot's number and a few signs of the offer's own, so that nobody learns how many offers there are. */
export function offerReference(lotNumber: number, offerId: string): string {
  return `L${lotNumber}-${offerId.slice(-4).toUpperCase()}`;
}

/** Refuses `lot-closed` unless offers may be made on the lot now. */
export function refuseClosed({ state, openUntil, number, sellerName }: LotRow, context: Context): void {
  if (state === 'posted' && openUntil !== null && openUntil > context.now()) return;
  const why = {
    draft: 'is not posted yet',
    withdrawn: 'is no longer offered',
    sold: 'is sold',
    posted: 'was offered until its last day, which is over',
  }[state];
  throw new Refusal('lot-closed', `Lot ${number} of ${sellerName} ${why}.`);
}
