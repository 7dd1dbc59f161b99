/**
 * What a buyer can do about a lot: make an offer, or go on with one.
 */
import { isOpen } from '../../../domain/lots/lot-standing.ts';
import type { LotView } from '../../../usecases/lots/read-lot-view.ts';
import { OfferList } from './offer-list.tsx';

export interface BuyerPartProps {
  readonly view: LotView;
  readonly mayOffer: boolean;
}

export function BuyerPart({ view, mayOffer }: BuyerPartProps) {
  const { summary, offers, advises } = view;
  const { id, standing } = summary;
  const under = offers.some(({ state }) => state === 'open' || state === 'lapsed');
  return (
    <>
      {isOpen(standing) && mayOffer && !under && advises === undefined ? (
        <p>
          <a className="act-link" href={`/lots/${id}/offer`}>
            Make an offer
          </a>
        </p>
      ) : null}
      {advises === undefined ? null : (
        <p className="hint">You advise {advises} on this lot, and make no offer on it yourself.</p>
      )}
      {isOpen(standing) && !mayOffer && advises === undefined ? (
        <p className="hint">An owner or a bookkeeper of your party may make an offer.</p>
      ) : null}
      <OfferList offers={offers} />
    </>
  );
}
