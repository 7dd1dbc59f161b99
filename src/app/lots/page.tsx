/**
 * Feed for sale: what waits for the reader first, then their own lots, then the others on the reader's own basis.
 */
import { mayDo } from '../../domain/parties/permissions.ts';
import { readFeedRequest } from '../../usecases/lots/feed-request.ts';
import type { LotSummary } from '../../usecases/lots/lot-summary.ts';
import { MOST_BESIDE, readFeedForSale } from '../../usecases/lots/read-feed-for-sale.ts';
import type { Asked } from '../place/asked.ts';
import { Told } from '../place/told.tsx';
import { ask } from '../server/ask.ts';
import { readerLocale } from '../server/current-caller.ts';
import { toldBy } from '../server/told.ts';
import { StripLegend } from '../strip/load-strip-picture.tsx';
import { basisParts, feedTexts } from './asked-lots.ts';
import { FeedFilter } from './feed-filter.tsx';
import { LotRow } from './lot-row.tsx';
import { waitingSentence } from './lot-words.ts';

export const metadata = { title: 'Feed for sale' };

export default async function LotsPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const asked = await searchParams;
  const locale = await readerLocale();
  const texts = feedTexts(asked);
  const { request, problems } = readFeedRequest(texts);
  const { feed, role } = await ask(async (context) => ({
    feed: await readFeedForSale(context, { request, locale }),
    role: context.caller.role,
  }));
  const { own, others, leftOut, quotes, hasPlace, waiting } = feed;
  const told = await toldBy(asked);
  const basis = basisParts(texts);
  const [first] = [...others, ...own];
  const mayKeep = mayDo(role, 'keep-lot');
  return (
    <>
      <div className="title">
        <h1>Feed for sale</h1>
        {mayKeep ? (
          <a className="plain-link" href="/lots/new">
            Sell feed
          </a>
        ) : null}
      </div>
      <Told told={told} />
      {waiting.length === 0 ? null : (
        <ul className="waiting" aria-label="What waits for you">
          {waiting.map(waitingSentence).map(({ text, to, act }, index) => (
            <li key={text} className="yours">
              <p>{text}</p>
              {mayKeep ? (
                <a className={index === 0 ? 'act-link' : 'plain-link'} href={to}>
                  {act}
                </a>
              ) : null}
            </li>
          ))}
        </ul>
      )}
      {own.length === 0 ? null : (
        <section aria-labelledby="own-lots">
          <h2 id="own-lots">What you sell</h2>
          <LotList lots={own} basis={basis} />
        </section>
      )}
      <section aria-labelledby="other-lots">
        <h2 id="other-lots">What others sell</h2>
        {others.length + leftOut === 0 ? (
          <p>
            Nobody offers you feed at the moment. Lots show here once a seller posts one for everyone, or
            invites you.
          </p>
        ) : (
          <>
            <FeedFilter
              texts={texts}
              problems={problems}
              quotes={quotes}
              hasPlace={hasPlace}
              currency={first?.currency ?? 'USD'}
              isMetric={first?.ton === 'tonne'}
            />
            <p className="hint">
              {hasPlace ? null : 'Distances show once you say where you are. '}
              <a href="/lots/place">{hasPlace ? 'Where you are' : 'Say where you are'}</a>
            </p>
            {leftOut === 0 ? null : <p>{leftOutWords(leftOut)}</p>}
            <form method="get" action="/lots/compare">
              {Object.entries(basis).map(([name, value]) => (
                <input key={name} type="hidden" name={name} value={value} />
              ))}
              <LotList lots={others} basis={basis} mayCompare={others.length > 1} />
              {others.length > 1 ? (
                <button type="submit" className="quiet">
                  Compare the ticked ones, up to {MOST_BESIDE}
                </button>
              ) : null}
            </form>
          </>
        )}
      </section>
    </>
  );
}

function leftOutWords(count: number): string {
  return count === 1 ? 'One more lot is not asked for here.' : `${count} more lots are not asked for here.`;
}

function LotList({
  lots,
  basis,
  mayCompare = false,
}: {
  readonly lots: readonly LotSummary[];
  readonly basis: Readonly<Record<string, string>>;
  readonly mayCompare?: boolean;
}) {
  if (lots.length === 0) return <p>No lot is like that. Ask for less, and more show.</p>;
  return (
    <>
      <StripLegend length="wet tons" />
      <ol className="lots">
        {lots.map((lot) => (
          <LotRow key={lot.id} lot={lot} basis={basis} mayCompare={mayCompare} />
        ))}
      </ol>
    </>
  );
}
