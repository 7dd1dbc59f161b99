/**
 * A season: what it came to and by what price, week by week, against the one before, how long money took, what was
 * questioned, and how the tests lie.
 */
import { readSeasonPage } from '../../../../usecases/season/read-season-page.ts';
import type { SumView } from '../../../../usecases/season/season-view.ts';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { SeasonCompared } from './season-compared.tsx';
import { SeasonDays } from './season-days.tsx';
import { SeasonQuestionsPart } from './season-questions.tsx';
import { SeasonTests } from './season-tests.tsx';
import { SeasonWeeks } from './season-weeks.tsx';
import { dryMatterSentence, leftOutSentence, starchSentence, TONS, valueSentence } from './season-words.ts';

export const metadata = { title: 'The season' };

/** "the 20 tested loads hold", whether they have settled or not. */
function testedWords({ loads, untestedLoads }: SumView): string {
  const tested = loads - untestedLoads;
  return tested === 1 ? 'the one tested load holds' : `the ${tested} tested loads, settled or not, hold`;
}

export default async function SeasonPage({ params }: { readonly params: Promise<{ readonly id: string }> }) {
  const { id } = await params;
  const locale = await readerLocale();
  const page = await ask((context) => readSeasonPage(context, { agreementId: id, locale }));
  const { number, seller, buyer, season, ton } = page;
  const { sums, refused, dryMatter, starch } = season;
  const hints = [leftOutSentence(dryMatter, 'dry matter'), leftOutSentence(starch, 'starch')];
  return (
    <>
      <h1>The season of {number}</h1>
      <p className="quiet-word">
        {seller} delivers to {buyer} · <a href={`/agreements/${id}`}>the agreement</a> ·{' '}
        <a href={`/agreements/${id}/progress`}>progress</a>
      </p>
      {sums.loads === 0 ? (
        <p>Nothing has been delivered yet.</p>
      ) : (
        <>
          <p className="season-first">{valueSentence(season, page)}</p>
          <p>
            {sums.wetTons} {TONS[ton]} came as fed
            {sums.untestedLoads === sums.loads
              ? ', none of it tested yet.'
              : `; ${testedWords(sums)} ${sums.dryTons} ${TONS[ton]} of dry matter.`}
            {refused === 0
              ? ''
              : ` ${refused === 1 ? 'One load was' : `${refused} loads were`} refused and ${refused === 1 ? 'counts' : 'count'} for nothing here.`}
          </p>
          {dryMatter.perTon === undefined ? null : (
            <section aria-labelledby="price">
              <h2 id="price">The price by what was in it</h2>
              <p>{dryMatterSentence(dryMatter, page)}</p>
              {starch.perTon === undefined ? null : <p>{starchSentence(starch, page)}</p>}
              <p className="hint">
                All that the settled loads came to, over all that was in them, whether it is paid yet or not,
                and before anything is taken off on an invoice.{' '}
                {hints.filter((hint) => hint !== undefined).join(' ')}
              </p>
            </section>
          )}
          <SeasonWeeks page={page} locale={locale} />
          <SeasonCompared page={page} />
          <SeasonDays page={page} />
          <SeasonQuestionsPart page={page} />
          {page.side === 'adviser' ? (
            <p className="hint">
              Invoices, payments and questions are for the two parties; an adviser does not see them.
            </p>
          ) : null}
          <SeasonTests page={page} locale={locale} />
        </>
      )}
    </>
  );
}
