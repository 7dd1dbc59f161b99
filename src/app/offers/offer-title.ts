/**
 * What an offer is called, as a heading and in the address bar.
 */
import type { OfferPage } from '../../usecases/offers/read-offer-page.ts';

/** "Offer of Tarn Hollow Dairy on lot 3", "Proposal to amend Agreement 14 of Quillback Acres". */
export function offerTitle({ offer, agreement }: Pick<OfferPage, 'offer' | 'agreement'>): string {
  const name = agreement?.name ?? 'the agreement';
  switch (offer.purpose) {
    case 'agreement':
      return offer.side === 'buyer'
        ? `Your offer on lot ${offer.lot?.number ?? ''} of ${offer.seller}`
        : `Offer of ${offer.buyer} on lot ${offer.lot?.number ?? ''}`;
    case 'amendment':
      return `Proposal to amend ${name}`;
    case 'closing':
      return `Proposal to close ${name} early`;
  }
}
