/**
 * One lot: how it stands and what can be done, what it costs the reader, all that its seller says of it, and what it asks.
 */
import { isOpen } from '../../../domain/lots/lot-standing.ts';
import { mayDo } from '../../../domain/parties/permissions.ts';
import { readFeedRequest } from '../../../usecases/lots/feed-request.ts';
import { readLotView } from '../../../usecases/lots/read-lot-view.ts';
import { AdvicePanel } from '../../advice/advice-panel.tsx';
import { WhatItDoes } from '../../builder/what-it-does.tsx';
import { type Asked, addressOf } from '../../place/asked.ts';
import { Told } from '../../place/told.tsx';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { toldBy } from '../../server/told.ts';
import { SharePanel } from '../../sharing/share-panel.tsx';
import { LoadStripPicture, StripLegend } from '../../strip/load-strip-picture.tsx';
import { basisParts, feedTexts } from '../asked-lots.ts';
import { BasisFields } from '../basis-fields.tsx';
import { feedTitle, lotName, standingWords } from '../lot-words.ts';
import { PriceView } from '../price-view.tsx';
import { BuyerPart } from './buyer-part.tsx';
import { DistancePart } from './distance-part.tsx';
import { LotFacts } from './lot-facts.tsx';
import { LotFiles } from './lot-files.tsx';
import { LotTests } from './lot-tests.tsx';
import { SellerPart } from './seller-part.tsx';
import { WithdrawPart } from './withdraw-part.tsx';

export const metadata = { title: 'Feed for sale' };

export interface LotPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function LotPage({ params, searchParams }: LotPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const texts = feedTexts(asked);
  const { request, problems } = readFeedRequest(texts);
  const { view, role } = await ask(async (context) => ({
    view: await readLotView(context, { lotId: id, basis: request, locale }),
    role: context.caller.role,
  }));
  const { summary, asking, askingDraft, lotTests, quotesByReference } = view;
  const told = await toldBy(asked);
  return (
    <article>
      <p className="hint">
        <a href={addressOf('/lots', basisParts(texts))}>Feed for sale</a>
      </p>
      <h1>{lotName(summary)}</h1>
      <p>{feedTitle(summary.feed)}.</p>
      <Told told={told} />
      <p className="standing">
        {summary.amount}: {standingWords(summary)}.
      </p>
      <LoadStripPicture load={summary.strip} />
      <StripLegend load={summary.strip} />
      {summary.isOwn ? (
        <SellerPart view={view} role={role} />
      ) : (
        <BuyerPart view={view} mayOffer={mayDo(role, 'make-offer')} />
      )}
      <section>
        <h2>{summary.isOwn ? 'What it would cost a buyer' : 'What it costs you'}</h2>
        <PriceView lot={summary} />
        {summary.worth.status === 'priced' ? (
          <p className="hint">Reckoned on a load of {summary.worth.load}.</p>
        ) : null}
        <form method="get" action={`/lots/${id}`} className="feed-filter">
          <BasisFields
            texts={texts}
            problems={problems}
            quotes={view.quotes}
            currency={summary.currency}
            isMetric={summary.ton === 'tonne'}
          />
          <button type="submit" className="quiet">
            Reckon with these
          </button>
        </form>
      </section>
      {!summary.isOwn && mayDo(role, 'make-offer') ? <DistancePart view={view} /> : null}
      <div className="lot-parts">
        <LotFacts view={view} />
        <section className="words">
          <h2>What {summary.isOwn ? 'you ask' : `${summary.seller} asks`}</h2>
          {asking
            .filter(({ paragraphs }) => paragraphs.length > 0)
            .map(({ heading, paragraphs }) => (
              <details
                key={heading}
                open={heading === 'The price of a load' || heading === 'Reference prices'}
              >
                <summary>{heading}</summary>
                {paragraphs.map((paragraph) => (
                  <p key={paragraph}>{paragraph}</p>
                ))}
              </details>
            ))}
        </section>
      </div>
      <LotTests view={view} />
      <LotFiles view={view} mayAttach={summary.isOwn && mayDo(role, 'keep-lot')} />
      {summary.isOwn && isOpen(summary.standing) ? <SharePanel lotId={id} /> : null}
      <AdvicePanel subject={{ lotId: id }} />
      <section>
        <h2>What the asking formula does</h2>
        <WhatItDoes after={askingDraft} lotTests={lotTests} quotes={quotesByReference} locale={locale} />
      </section>
      {summary.isOwn &&
      mayDo(role, 'keep-lot') &&
      (isOpen(summary.standing) || summary.standing === 'over') ? (
        <WithdrawPart lotId={id} offers={view.offers} />
      ) : null}
    </article>
  );
}
