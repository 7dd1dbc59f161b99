/**
 * How far deliveries under an agreement have come: what waits first, then tons against the promise, the days as strips,
 * and what the tests say.
 */

import { readProgress } from '../../../../usecases/agreements/read-progress.ts';
import { readWaiting } from '../../../../usecases/loads/read-waiting.ts';
import { ask } from '../../../server/ask.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { StripLegend } from '../../../strip/load-strip-picture.tsx';
import { CommittedBar } from './committed-bar.tsx';
import { ProgressDays } from './progress-days.tsx';
import { TON_WORDS, waitingSentence } from './progress-words.ts';
import { TestTable } from './test-table.tsx';

export const metadata = { title: 'Progress' };

export default async function ProgressPage({
  params,
}: {
  readonly params: Promise<{ readonly id: string }>;
}) {
  const { id } = await params;
  const locale = await readerLocale();
  const { progress, waiting } = await ask(async (context) => ({
    progress: await readProgress(context, { agreementId: id, locale }),
    waiting: (await readWaiting(context)).filter(({ agreementId }) => agreementId === id),
  }));
  const { number, seller, buyer, delivered, refused, committed, tests, days, ton, currency } = progress;
  return (
    <>
      <h1>Progress of {number}</h1>
      <p className="quiet-word">
        {seller} delivers to {buyer} · <a href={`/agreements/${id}`}>the agreement</a> ·{' '}
        <a href={`/loads?agreement=${id}`}>its loads</a>
      </p>
      {waiting.length === 0 ? null : (
        <ul>
          {waiting.map((group) => (
            <li key={group.what}>{waitingSentence(group)}</li>
          ))}
        </ul>
      )}
      {delivered.loads === 0 ? (
        <p>Nothing has been delivered yet.</p>
      ) : (
        <>
          {committed ? <CommittedBar committed={committed} /> : null}
          <dl className="facts progress-facts">
            <div>
              <dt>Delivered</dt>
              <dd>
                {delivered.loads === 1 ? 'one load' : `${delivered.loads} loads`}, {delivered.wetTons}{' '}
                {TON_WORDS[ton]} as fed
              </dd>
            </div>
            <div>
              <dt>Dry matter in the tested loads</dt>
              <dd>
                {delivered.dryTons} {TON_WORDS[ton]}
              </dd>
            </div>
            {delivered.untestedLoads === 0 ? null : (
              <div>
                <dt>Not tested yet</dt>
                <dd>
                  {delivered.untestedLoads === 1 ? 'one load' : `${delivered.untestedLoads} loads`},{' '}
                  {delivered.untestedTons} {TON_WORDS[ton]} as fed
                </dd>
              </div>
            )}
            <div>
              <dt>
                Value of the settled loads
                {delivered.unsettledLoads === 0 ? '' : ` (${delivered.unsettledLoads} not settled yet)`}
              </dt>
              <dd>
                {delivered.value} {currency}
              </dd>
            </div>
            {refused === 0 ? null : (
              <div>
                <dt>Refused, and not counted here</dt>
                <dd>{refused === 1 ? 'one load' : `${refused} loads`}</dd>
              </div>
            )}
          </dl>
          <section aria-labelledby="days">
            <h2 id="days">Day by day</h2>
            <StripLegend />
            <ProgressDays days={days} ton={ton} currency={currency} />
          </section>
          {tests.length === 0 ? null : (
            <section aria-labelledby="tests">
              <h2 id="tests">What the tests say</h2>
              <TestTable tests={tests} />
            </section>
          )}
        </>
      )}
    </>
  );
}
