/**
 * Offers: what waits for the reader first, then every offer by the lot or the agreement that it is about. A seller sees
 * several buyers' offers on one lot beside one another; a buyer only its own.
 */
import { readFeedRequest } from '../../usecases/lots/feed-request.ts';
import { readActions } from '../../usecases/notices/read-actions.ts';
import { readOfferList } from '../../usecases/offers/read-offer-list.ts';
import { feedTexts } from '../lots/asked-lots.ts';
import { ActionList } from '../notices/action-list.tsx';
import type { Asked } from '../place/asked.ts';
import { ask } from '../server/ask.ts';
import { readerLocale } from '../server/current-caller.ts';
import { OfferGroupView } from './offer-group-view.tsx';

export const metadata = { title: 'Offers' };

export default async function OffersPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const texts = feedTexts(asked);
  const { request, problems } = readFeedRequest(texts);
  const { groups, actions } = await ask(async (context) => ({
    groups: await readOfferList(context, { locale, quotes: request.quotes }),
    actions: await readActions(context, { locale }),
  }));
  const waiting = actions.filter(({ kind }) => kind === 'offer');
  return (
    <>
      <div className="title">
        <h1>Offers</h1>
        <a className="plain-link" href="/lots">
          Feed for sale
        </a>
      </div>
      {groups.length === 0 ? (
        <p>
          There are no offers yet. A buyer makes one from a lot under <a href="/lots">feed for sale</a>.
        </p>
      ) : null}
      {groups.length > 0 && waiting.length === 0 ? <p>No offer waits for you.</p> : null}
      <ActionList actions={waiting} isLeading />
      {groups.map((group) => (
        <OfferGroupView
          key={group.lot?.id ?? group.agreement?.id}
          group={group}
          texts={texts}
          problems={problems}
        />
      ))}
    </>
  );
}
