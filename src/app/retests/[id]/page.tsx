/**
 * One question: what it is about, what comes next and by when, what it may come to in money or how it ended, and all that
 * it rests on.
 */
import { figuresFor } from '../../../documents/figures.ts';
import { mayDo } from '../../../domain/parties/permissions.ts';
import type { RetestRecord } from '../../../domain/retests/retest-record.ts';
import { readRetest } from '../../../usecases/retests/read-retest.ts';
import type { Asked } from '../../place/asked.ts';
import { Told } from '../../place/told.tsx';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { toldBy } from '../../server/told.ts';
import { OutlookTable } from '../outlook-table.tsx';
import { doubtWords } from '../outlook-words.ts';
import { ReportForm } from './report-form.tsx';
import { RetestEnding } from './retest-ending.tsx';
import { RetestFigures } from './retest-figures.tsx';
import { RetestGround } from './retest-ground.tsx';
import { RetestProposals } from './retest-proposals.tsx';

export const metadata = { title: 'Question' };

export interface RetestPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function RetestPage({ params, searchParams }: RetestPageProps) {
  const [{ id }, asked, locale] = [await params, await searchParams, await readerLocale()];
  const { view, mayAct } = await ask(async (context) => {
    const view = await readRetest(context, { retestId: id, locale });
    return { view, mayAct: mayDo(context.caller.role, 'question') && !view.isSealed };
  });
  const told = await toldBy(asked);
  const figures = figuresFor(locale);
  const { record, side, doubt, outlook } = view;
  const { seller, buyer, asker, currency, unit } = record;
  const names = { seller, buyer, asker, side, currency, method: view.method };
  const what = whatOf(record);
  return (
    <>
      <div className="title">
        <h1>{what}</h1>
        <p className="quiet-word">
          {seller} and {buyer}, agreement <a href={`/agreements/${record.agreementId}`}>{record.agreement}</a>
        </p>
      </div>
      <Told told={told} />
      <p>
        {asker === side ? 'Your side' : asker === 'seller' ? seller : buyer} asked on {record.askedOn}:{' '}
        <strong className="amount">{figures.show(record.first)}</strong> {unit} was{' '}
        {record.about === 'weight' ? 'weighed' : 'reported'}, and it makes it{' '}
        <strong className="amount">{figures.show(record.claimed)}</strong>: “{record.reason}”
      </p>
      {record.ending ? (
        <RetestEnding record={record} ending={record.ending} figures={figures} />
      ) : (
        <>
          <Next
            record={record}
            isYours={view.ifConfirmed.size > 0}
            isProposed={record.proposals.some(({ answer, by }) => answer === null && by !== side)}
          />
          <Held record={record} figures={figures} />
        </>
      )}
      <RetestFigures view={view} figures={figures} mayAct={mayAct} />
      {record.ending || view.isSealed ? null : (
        <section aria-labelledby="outlook">
          <h2 id="outlook">What it may come to</h2>
          {doubt && !record.weights ? <p>{doubtWords(doubt, unit)}</p> : null}
          <OutlookTable
            outlook={outlook}
            names={names}
            unit={unit}
            figures={figures}
            caption={`What the question about ${what} may come to`}
          />
        </section>
      )}
      {mayAct && record.calls ? <ReportForm view={view} /> : null}
      <RetestProposals view={view} figures={figures} mayAct={mayAct} />
      <RetestGround record={record} figures={figures} />
      <ul className="pick">
        <li>
          <a className="plain-link" href={`/retests/${id}/paper`}>
            The whole record of this question (PDF)
          </a>
        </li>
        <li>
          <a className="plain-link" href={`/retests?agreement=${record.agreementId}`}>
            All questions
          </a>
        </li>
      </ul>
    </>
  );
}

/** "Starch of sample S1". */
function whatOf({ name, sample, ticket }: RetestRecord): string {
  return sample === null ? `${name} of load ${ticket ?? ''}` : `${name} of sample ${sample}`;
}

/** Who must do what, and by when. */
function Next({
  record: { calls, figures, obstacle },
  isYours,
  isProposed,
}: {
  readonly record: RetestRecord;
  /** A figure waits for the reader's own word. */
  readonly isYours: boolean;
  /** The other side proposes an ending. */
  readonly isProposed: boolean;
}) {
  if (!calls) return <p className="told">{obstacle}</p>;
  const waiting = figures.filter(({ standing }) => standing === 'unanswered');
  return (
    <section aria-labelledby="next">
      <h2 id="next">What comes next</h2>
      {isProposed ? (
        <p>
          The other side proposes to <a href="#between-us">end it between the two of you</a>: what that comes
          to stands there.
        </p>
      ) : null}
      {waiting.length > 0 ? (
        <p>
          {isYours
            ? 'A reported figure waits for your word: confirm or contest it below.'
            : 'A reported figure waits for the other side’s word.'}{' '}
          Without one it counts from {waiting[0]?.answeredOn}.
        </p>
      ) : (
        <>
          <ol className="steps">
            {calls.sentences.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ol>
          {calls.testers.some((tester) => tester !== 'second-scale') ? (
            <p className="hint">
              Whoever keeps the sealed part sends it. Either of you enters the report here once it has come; a
              side’s own laboratory is entered by that side.
            </p>
          ) : (
            <p className="hint">
              Only a truck that is still loaded can be weighed full again. If it has been emptied, end the
              question below.
            </p>
          )}
          <p>
            To be reported by <strong>{calls.dueOn}</strong>, {daysWords(calls.daysLeft)}.{' '}
            {calls.testers.every((tester) => tester === 'referee')
              ? 'If it is not, the rule below says what counts without the referee.'
              : 'If it is not, the first figure stands.'}
          </p>
        </>
      )}
    </section>
  );
}

function daysWords(days: number): string {
  if (days === 0) return 'today';
  return days === 1 ? 'one day from now' : `${days} days from now`;
}

function Held({
  record: { held, currency },
  figures,
}: {
  readonly record: RetestRecord;
  readonly figures: ReturnType<typeof figuresFor>;
}) {
  if (!/[1-9]/.test(held))
    return <p className="hint">Nothing is held: nothing in question is invoiced and unpaid.</p>;
  return (
    <p className="owed">
      <strong className="amount">
        {figures.show(held)} {currency}
      </strong>{' '}
      is held until it is decided. Everything else stays due on its day.
    </p>
  );
}
