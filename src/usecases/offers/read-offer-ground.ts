/**
 * What a buyer's first offer on a lot starts from: the asking formula with the names filled in, and the lot's own tests.
 */
import { FEEDS } from '../../domain/agreement/measures.ts';
import { askingAgreement } from '../../domain/lots/lot-document.ts';
import { isOpen, lotStanding } from '../../domain/lots/lot-standing.ts';
import { readOffers } from '../../store/rows/offer-rows.ts';
import { type Context, permit } from '../context.ts';
import { findLot, lotOf } from '../lots/find-lot.ts';
import { partyName } from '../people/party-name.ts';
import { Refusal } from '../refusal.ts';
import { figuresOf } from './read-offer.ts';
import { recordedQuotes } from './read-offer-page.ts';

export interface OfferGround {
  readonly lot: { readonly id: string; readonly number: number; readonly seller: string };
  /** With the parts of the ear in it. */
  readonly feed: string;
  /** Whether the lot takes offers now. */
  readonly isOpen: boolean;
  /** The party's offer on it that is not over. */
  readonly openOfferId: string | undefined;
  readonly draft: Readonly<Record<string, unknown>>;
  readonly lotTests: readonly Readonly<Record<string, string>>[];
  readonly quotes: Readonly<Record<string, string>>;
}

/** Refuses `not-allowed`, `not-found`, and `not-yours` for the seller's own lot. */
export async function readOfferGround(
  context: Context,
  { lotId }: { readonly lotId: string },
): Promise<OfferGround> {
  permit(context, 'make-offer');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    const row = await findLot(tx, lotId);
    if (row.sellerId === partyId) throw new Refusal('not-yours', 'This lot is your own.');
    const lot = lotOf(row.document);
    const open = (await readOffers(tx)).find(
      (offer) => offer.lotId === lotId && offer.buyerId === partyId && offer.ending === null,
    );
    const names = {
      // The offer gets its own number when it is sent.
      id: `L${row.number}-new`,
      seller: row.sellerName,
      buyer: await partyName(tx, partyId),
    };
    const asking = askingAgreement(lot, names);
    return {
      lot: { id: row.id, number: row.number, seller: row.sellerName },
      feed: FEEDS[lot.feed],
      isOpen: isOpen(lotStanding(row, context.now())),
      openOfferId: open?.id,
      draft: { ...lot.asking, ...names },
      lotTests: (lot.tests ?? []).map(figuresOf),
      quotes: await recordedQuotes(tx, asking),
    };
  });
}
