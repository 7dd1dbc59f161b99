/**
 * The offers on a lot that the reader takes part in.
 */
import type { OfferState } from '../../../domain/offers/offer.ts';
import type { OfferOnLot } from '../../../usecases/lots/read-lot-view.ts';

const STATE_WORDS: Readonly<Record<OfferState, string>> = {
  open: 'open',
  lapsed: 'its time is over',
  withdrawn: 'withdrawn',
  declined: 'declined',
  agreed: 'signed by both: an agreement',
  'lot-sold': 'ended: the lot went to another buyer',
  'lot-withdrawn': 'ended: the lot was withdrawn',
};

export function OfferList({ offers }: { readonly offers: readonly OfferOnLot[] }) {
  if (offers.length === 0) return null;
  return (
    <section>
      <h2>{offers.length === 1 ? 'The offer on it' : 'Offers on it'}</h2>
      <ul>
        {offers.map(({ id, other, state, isSigned, turn }) => (
          <li key={id}>
            <a href={`/offers/${id}`}>With {other}</a>: {STATE_WORDS[state]}
            {state === 'open' && isSigned ? ', signed by one side' : ''}
            {turn === undefined ? '' : turn === 'yours' ? '; it is your move' : `; it is ${other}’s move`}
          </li>
        ))}
      </ul>
    </section>
  );
}
