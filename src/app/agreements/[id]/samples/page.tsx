/**
 * The samples of an agreement: what is missing first, then the forms of whoever takes them, then each sample.
 */
import { randomUUID } from 'node:crypto';
import { zoneCalendar } from '../../../../domain/dates/instant.ts';
import { readAgreementWords } from '../../../../usecases/agreements/read-agreement-words.ts';
import { readResultStories } from '../../../../usecases/results/read-result-stories.ts';
import { readSampleLoads } from '../../../../usecases/samples/read-sample-loads.ts';
import { readSamples } from '../../../../usecases/samples/read-samples.ts';
import { type Asked, addressOf, askedText } from '../../../place/asked.ts';
import { mayAct } from '../../../place/may-act.ts';
import { Told } from '../../../place/told.tsx';
import { ask } from '../../../server/ask.ts';
import { currentSession } from '../../../server/current-caller.ts';
import { toldBy } from '../../../server/told.ts';
import { SampleForms } from './sample-forms.tsx';
import { SampleItem } from './sample-item.tsx';
import { SamplesWait } from './samples-wait.tsx';

export const metadata = { title: 'Samples' };

const SAMPLES_A_PAGE = 20;

export interface SamplesPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function SamplesPage({ params, searchParams }: SamplesPageProps) {
  const [{ id }, asked] = [await params, await searchParams];
  const { agreement, view, loads, now, role } = await ask(async (context) => ({
    agreement: await readAgreementWords(context, { agreementId: id }),
    view: await readSamples(context, { agreementId: id }),
    loads: await readSampleLoads(context, { agreementId: id }),
    now: context.now(),
    role: context.caller.role,
  }));
  const { number, seller, buyer, timeZone } = agreement;
  const isOpenOnly = askedText(asked, 'show') === 'open';
  const chosen = askedText(asked, 'sample');
  const listed = view.samples
    .filter(
      ({ resultAt, parts }) => !isOpenOnly || resultAt === null || parts.some(({ goneBefore }) => goneBefore),
    )
    .toReversed()
    // The one that was just worked on stands first.
    .sort((a, b) => Number(b.sample === chosen) - Number(a.sample === chosen));
  const pages = Math.max(1, Math.ceil(listed.length / SAMPLES_A_PAGE));
  const page = Math.min(pages, Math.max(1, Number.parseInt(askedText(asked, 'page') ?? '1', 10) || 1));
  const shown = listed.slice((page - 1) * SAMPLES_A_PAGE, page * SAMPLES_A_PAGE);
  const stories = await ask((context) =>
    readResultStories(context, { agreementId: id, samples: shown.map(({ sample }) => sample) }),
  );
  const calendar = zoneCalendar(timeZone);
  const mayTake = !agreement.isSealed && mayAct(agreement.side, role, 'take-sample');
  const mayReport = !agreement.isSealed && mayAct(agreement.side, role, 'record-result');
  const told = await toldBy(asked);
  const address = (parts: Readonly<Record<string, string | number | undefined>>) =>
    addressOf(`/agreements/${id}/samples`, parts);
  const show = isOpenOnly ? 'open' : undefined;
  return (
    <>
      <h1>Samples</h1>
      <p className="quiet-word">
        {seller} to {buyer}, agreement <a href={`/agreements/${id}`}>{number}</a>
      </p>
      <Told told={told} />
      <SamplesWait view={view} mayTake={mayTake} mayReport={mayReport} agreementId={id} />
      {mayTake ? (
        <SampleForms
          view={view}
          keys={[randomUUID(), randomUUID(), randomUUID()]}
          partId={askedText(asked, 'part')}
          taken={{
            agreementId: id,
            ...{ timeZone, now },
            person: (await currentSession())?.name ?? '',
            sample: chosen,
            ticket: askedText(asked, 'ticket'),
          }}
        />
      ) : null}
      <section aria-labelledby="each">
        <h2 id="each">Each sample, the newest first</h2>
        <nav className="filters" aria-label="Which samples">
          <ul>
            <li>
              <a href={address({})} aria-current={isOpenOnly ? undefined : 'page'}>
                All
              </a>
            </li>
            <li>
              <a href={address({ show: 'open' })} aria-current={isOpenOnly ? 'page' : undefined}>
                What is missing something
              </a>
            </li>
          </ul>
        </nav>
        {shown.length === 0 ? <p>There is none.</p> : null}
        <ul className="samples">
          {shown.map((sample) => (
            <SampleItem
              key={sample.sample}
              view={sample}
              loads={loads.get(sample.sample) ?? []}
              story={stories.get(sample.sample)}
              agreementId={id}
              seller={seller}
              buyer={buyer}
              mayTake={mayTake}
              mayReport={mayReport}
              clock={(instant) => calendar.wallClockAt(Date.parse(instant))}
              back={address({ show, page: page === 1 ? undefined : page })}
            />
          ))}
        </ul>
        {pages === 1 ? null : (
          <p className="paging">
            Page {page} of {pages}.{' '}
            {page > 1 ? <a href={address({ show, page: page - 1 })}>Newer samples</a> : null}{' '}
            {page < pages ? <a href={address({ show, page: page + 1 })}>Older samples</a> : null}
          </p>
        )}
      </section>
    </>
  );
}
