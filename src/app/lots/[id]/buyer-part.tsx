/**
 * What a buyer can do about a lot: make an offer, go on with one, note how far it is.
 */
import { randomUUID } from 'node:crypto';
import { isOpen } from '../../../domain/lots/lot-standing.ts';
import type { Role } from '../../../domain/parties/permissions.ts';
import type { LotView } from '../../../usecases/lots/read-lot-view.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { noteDistance } from '../lot-actions.ts';
import { OfferList } from './offer-list.tsx';

export interface BuyerPartProps {
  readonly view: LotView;
  readonly role: Role;
  readonly mayOffer: boolean;
}

export function BuyerPart({ view, mayOffer }: BuyerPartProps) {
  const { summary, offers, road, hasPlace } = view;
  const { id, standing, ton } = summary;
  const under = offers.some(({ state }) => state === 'open' || state === 'lapsed');
  return (
    <>
      {isOpen(standing) && mayOffer && !under ? (
        <p>
          <a className="act-link" href={`/lots/${id}/offer`}>
            Make an offer
          </a>
        </p>
      ) : null}
      {isOpen(standing) && !mayOffer ? (
        <p className="hint">An owner or a bookkeeper of your party may make an offer.</p>
      ) : null}
      <OfferList offers={offers} />
      {mayOffer ? (
        <details className="more-fields">
          <summary>{road ? 'The way to it, by road' : 'Note how far it is by road'}</summary>
          <RecordForm
            action={noteDistance}
            submit="Keep this distance"
            requestKey={randomUUID()}
            quiet
            fields={[
              { kind: 'hidden', name: 'lot', value: id },
              {
                kind: 'row',
                fields: [
                  {
                    kind: 'text',
                    name: 'length',
                    label: 'By road, one way',
                    hint: 'Only you see it. Empty it to go by the crow again.',
                    keys: 'decimal',
                    value: road?.length ?? '',
                  },
                  {
                    kind: 'choice',
                    name: 'unit',
                    label: 'in',
                    value: road?.unit ?? (ton === 'tonne' ? 'km' : 'mile'),
                    options: [
                      { value: 'mile', label: 'miles' },
                      { value: 'km', label: 'km' },
                    ],
                  },
                ],
              },
            ]}
          />
          {hasPlace ? null : (
            <p className="hint">
              Or <a href="/lots/place">say where you are</a>, for rough distances to every lot.
            </p>
          )}
        </details>
      ) : null}
    </>
  );
}
