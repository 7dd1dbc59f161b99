/**
 * The offers about one lot or one agreement, each with its standing in a sentence.
 */
import type { FeedTexts } from '../../usecases/lots/feed-request.ts';
import type { OfferGroup, OfferLine } from '../../usecases/offers/read-offer-list.ts';
import type { Problem } from '../../usecases/refusal.ts';
import { opening } from '../place/sentence.ts';
import { BesideOffers } from './beside-offers.tsx';

export interface OfferGroupViewProps {
  readonly group: OfferGroup;
  readonly texts: FeedTexts;
  readonly problems: readonly Problem[];
}

export function OfferGroupView({ group, texts, problems }: OfferGroupViewProps) {
  const { lot, agreement, seller, offers, beside } = group;
  return (
    <section className="offer-group">
      {lot ? (
        <>
          <h2>
            <a href={`/lots/${lot.id}`}>
              Lot {lot.number} of {seller}
            </a>
          </h2>
          {lot.feed === undefined ? null : <p className="quiet-word">{opening(lot.feed)}.</p>}
        </>
      ) : (
        <h2>
          <a href={`/agreements/${agreement?.id}`}>{agreement?.name}</a>
        </h2>
      )}
      {beside ? (
        <BesideOffers
          beside={beside}
          offers={offers.filter(({ id }) => beside.prices.has(id))}
          texts={texts}
          problems={problems}
        />
      ) : null}
      <ul className="offers">
        {offers.map((offer) => (
          <li key={offer.id}>
            <a href={`/offers/${offer.id}`}>{lineTitle(offer)}</a>
            <p>{offer.standing}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}

function lineTitle({ purpose, side, buyer }: OfferLine): string {
  switch (purpose) {
    case 'agreement':
      return side === 'buyer' ? 'Your offer' : `Offer of ${buyer}`;
    case 'amendment':
      return 'Proposal to amend it';
    case 'closing':
      return 'Proposal to close it early';
  }
}
