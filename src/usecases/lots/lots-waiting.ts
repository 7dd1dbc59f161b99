/**
 * What waits for the party itself about lots: answers to offers, its drafts, and its lots whose last day is over.
 */
import { offerState } from '../../domain/offers/offer.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readOffers } from '../../store/rows/offer-rows.ts';
import { sideOf } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { turnOf } from '../offers/read-offer.ts';
import type { OpenedLot } from './lot-summary.ts';

export type LotWaiting =
  /** Offers on a lot that wait for the party's answer, the oldest sent at that time (ISO 8601). */
  | {
      readonly kind: 'answer';
      readonly lotId: string;
      readonly number: number;
      readonly seller: string;
      readonly isOwn: boolean;
      readonly offerIds: readonly string[];
      readonly since: string;
    }
  | { readonly kind: 'draft' | 'over'; readonly lotId: string; readonly number: number };

/** Answers first, those that have waited longest before the others. */
export async function lotsWaiting(
  tx: Transaction,
  context: Context,
  lots: readonly OpenedLot[],
): Promise<readonly LotWaiting[]> {
  const { partyId } = context.caller;
  const offers = (await readOffers(tx)).filter(
    (offer) =>
      sideOf(offer, context.caller) !== 'adviser' &&
      offerState(offer, context.now()) === 'open' &&
      turnOf(offer, context) === 'yours',
  );
  const answers = lots.flatMap(({ row }): Extract<LotWaiting, { kind: 'answer' }>[] => {
    const ours = offers.filter(({ lotId }) => lotId === row.id);
    const since = ours.map(({ sentAt }) => sentAt).sort()[0];
    if (since === undefined) return [];
    const { id: lotId, number, sellerName: seller } = row;
    const offerIds = ours.map(({ id }) => id);
    return [{ kind: 'answer', lotId, number, seller, isOwn: row.sellerId === partyId, offerIds, since }];
  });
  const own = lots.filter(({ row }) => row.sellerId === partyId);
  const told = own.flatMap(({ row: { id: lotId, number }, standing }): LotWaiting[] =>
    standing === 'draft' || standing === 'over' ? [{ kind: standing, lotId, number }] : [],
  );
  return [...answers.toSorted((a, b) => (a.since < b.since ? -1 : 1)), ...told.toReversed()];
}
