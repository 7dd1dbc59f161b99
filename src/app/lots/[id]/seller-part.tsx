/**
 * What a seller can do with a lot: post it, change it; who sees it, and how its offers stand.
 */
import { mayDo, type Role } from '../../../domain/parties/permissions.ts';
import type { LotView } from '../../../usecases/lots/read-lot-view.ts';
import { OfferList } from './offer-list.tsx';

export interface SellerPartProps {
  readonly view: LotView;
  readonly role: Role;
}

const POST_WORDS = { draft: 'Post it', posted: 'Who sees it', withdrawn: 'Post it again' } as const;

export function SellerPart({ view, role }: SellerPartProps) {
  const { summary, guests, publicParts, offers } = view;
  const { id, standing, audience } = summary;
  const state = standing === 'under-offer' || standing === 'over' ? 'posted' : standing;
  const open = offers.filter((offer) => offer.state === 'open' || offer.state === 'lapsed');
  return (
    <>
      {state === 'sold' || !mayDo(role, 'keep-lot') ? null : (
        <ul className="pick">
          <li>
            <a className={state === 'posted' ? 'plain-link' : 'act-link'} href={`/lots/${id}/post`}>
              {POST_WORDS[state]}
            </a>
          </li>
          <li>
            <a className="plain-link" href={`/lots/${id}/edit`}>
              Change it
            </a>
          </li>
        </ul>
      )}
      {state === 'draft' ? null : (
        <p>
          {audience === 'everyone'
            ? 'Everyone who is signed in sees it.'
            : `Only whom you invite sees it${guests.length === 0 ? ', and that is nobody yet' : ''}.`}{' '}
          {publicParts === undefined ? (
            'Nothing of it is shown to anybody else.'
          ) : (
            <>
              Some of it anybody may see: <a href={`/feed/${id}`}>the public page</a>.
            </>
          )}
        </p>
      )}
      <OfferList offers={offers} />
      {open.length > 1 ? (
        <p>
          <a href="/offers">See the offers beside one another</a>
        </p>
      ) : null}
    </>
  );
}
