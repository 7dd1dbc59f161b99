/**
 * One offer: how it stands, what can be done, what its newest version says and changes in words and in money, and every
 * version before it.
 */
import { checkAgreement } from '../../../domain/agreement/check-agreement.ts';
import { changesInWords } from '../../../domain/words/changes-in-words.ts';
import { type OfferPage as OfferPageView, readOfferPage } from '../../../usecases/offers/read-offer-page.ts';
import { readMembers } from '../../../usecases/people/members.ts';
import { AdvicePanel } from '../../advice/advice-panel.tsx';
import { WhatItDoes } from '../../builder/what-it-does.tsx';
import { WordChanges } from '../../builder/word-changes.tsx';
import type { Asked } from '../../place/asked.ts';
import { opening } from '../../place/sentence.ts';
import { Told } from '../../place/told.tsx';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { toldBy } from '../../server/told.ts';
import { DocumentWords } from '../document-words.tsx';
import { offerTitle } from '../offer-title.ts';
import { AnswerPart } from './answer-part.tsx';
import { VersionList } from './version-list.tsx';

export const metadata = { title: 'Offer' };

export interface OfferPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function OfferPage({ params, searchParams }: OfferPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const { page, role, members } = await ask(async (context) => ({
    page: await readOfferPage(context, { offerId: id }),
    role: context.caller.role,
    members: await readMembers(context),
  }));
  const { offer, standing, feed, agreement } = page;
  const { newest, lot } = offer;
  const told = await toldBy(asked);
  return (
    <article>
      <p className="hint">
        <a href="/offers">Offers</a>
      </p>
      <h1>{offerTitle(page)}</h1>
      <p className="quiet-word">
        {offer.seller} to {offer.buyer}. {feed === undefined ? null : `${opening(feed)}.`}
      </p>
      <Told told={told} />
      <p className="standing">{standing}</p>
      <ul className="pick">
        {offer.becameId === null ? null : (
          <li>
            <a className="act-link" href={`/agreements/${offer.becameId}`}>
              See the agreement
            </a>
          </li>
        )}
        {lot ? (
          <li>
            <a className="plain-link" href={`/lots/${lot.id}`}>
              Lot {lot.number}
            </a>
          </li>
        ) : null}
        {agreement ? (
          <li>
            <a className="plain-link" href={`/agreements/${agreement.id}`}>
              {agreement.name}
            </a>
          </li>
        ) : null}
      </ul>
      {newest.message === null ? null : (
        <figure className="message">
          <blockquote>{newest.message}</blockquote>
          <figcaption>
            {offer[newest.by]}, with version {newest.version}
          </figcaption>
        </figure>
      )}
      <AnswerPart
        offer={offer}
        role={role}
        owners={members.filter((member) => member.role === 'owner').map(({ name }) => name)}
      />
      <Changes page={page} locale={locale} />
      <section aria-labelledby="newest">
        <h2 id="newest">Version {newest.version} in words</h2>
        <DocumentWords version={newest} level={3} />
      </section>
      <VersionList page={page} />
      <AdvicePanel subject={{ offerId: id }} />
    </article>
  );
}

/** What the newest version changes, in words and in money on the same five loads. */
function Changes({ page, locale }: { readonly page: OfferPageView; readonly locale: string }) {
  const { offer, before, quotes } = page;
  const { agreement: after } = checkAgreement(offer.newest.document);
  if (!after) return null;
  const earlier = before && checkAgreement(before.document).agreement;
  return (
    <section aria-labelledby="changes">
      <h2 id="changes">
        {before
          ? `What version ${offer.newest.version} changes against ${before.name}`
          : `What version ${offer.newest.version} pays`}
      </h2>
      {earlier ? (
        <>
          <WordChanges changes={changesInWords(earlier, after)} />
          <h3>What changed in money</h3>
        </>
      ) : null}
      <WhatItDoes
        {...(before ? { before: before.document } : {})}
        after={offer.newest.document}
        lotTests={offer.lotTests}
        quotes={quotes}
        locale={locale}
        figuresAlone
      />
    </section>
  );
}
