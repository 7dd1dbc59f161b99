/**
 * One load: what it came to and how, what was weighed and tested, and everything that was recorded of it.
 */
import { randomUUID } from 'node:crypto';
import type { Verb } from '../../../domain/parties/permissions.ts';
import { readAgreementWords } from '../../../usecases/agreements/read-agreement-words.ts';
import { readAllowanceList } from '../../../usecases/loads/agree-allowance.ts';
import { type LoadView, readLoad } from '../../../usecases/loads/read-load.ts';
import { readResultStories } from '../../../usecases/results/read-result-stories.ts';
import { readLoadQuestions } from '../../../usecases/retests/read-load-questions.ts';
import type { Asked } from '../../place/asked.ts';
import { mayAct } from '../../place/may-act.ts';
import { Told } from '../../place/told.tsx';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { toldBy } from '../../server/told.ts';
import { PriceStair } from '../../stair/price-stair.tsx';
import { LoadStripPicture, StripLegend } from '../../strip/load-strip-picture.tsx';
import { LoadAllowance } from './load-allowance.tsx';
import { LoadHistory } from './load-history.tsx';
import { LoadQuestions } from './load-questions.tsx';
import { LoadQuotes } from './load-quotes.tsx';
import { LoadStanding } from './load-standing.tsx';
import { LoadStep } from './load-step.tsx';
import { LoadTicket } from './load-ticket.tsx';

export const metadata = { title: 'Load' };

export interface LoadPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function LoadPage({ params, searchParams }: LoadPageProps) {
  const { id } = await params;
  const locale = await readerLocale();
  const told = await toldBy(await searchParams);
  const { load, role, isSealed, series, story, allowances, questions } = await ask(async (context) => {
    const found = await readLoad(context, { loadId: id, locale });
    const { agreementId, sample } = found;
    const agreement = await readAgreementWords(context, { agreementId });
    const stories = await readResultStories(context, {
      agreementId,
      samples: sample === undefined ? [] : [sample],
    });
    const allowances = (await readAllowanceList(context, { agreementId })).filter(
      ({ loadId }) => loadId === id,
    );
    const questions = await readLoadQuestions(context, { agreementId, loadId: id, sample });
    return {
      questions,
      load: found,
      role: context.caller.role,
      isSealed: agreement.isSealed,
      series: agreement.series,
      story: stories.get(sample ?? ''),
      allowances,
    };
  });
  const { ticket, price, standing } = load;
  const may = (verb: Verb) => !isSealed && mayAct(load.side, role, verb);
  return (
    <>
      <div className="title">
        <h1>Load {ticket.ticket}</h1>
        <p className="quiet-word">
          {load.seller} to {load.buyer}, agreement{' '}
          <a href={`/agreements/${load.agreementId}`}>{load.agreementNumber}</a>
        </p>
      </div>
      <Told told={told} />
      {isSealed ? (
        <p className="told">Its season is sealed: nothing about this load is recorded any more.</p>
      ) : null}
      <LoadStripPicture load={ticket.strip} />
      <StripLegend load={ticket.strip} />
      {load.isVoid ? (
        <p className="told">This ticket is void: “{load.reason}”. Its number stays taken.</p>
      ) : (
        <LoadStanding load={load} />
      )}
      <LoadQuestions questions={questions} />
      {load.version > 1 && !load.isVoid ? (
        <p className="hint">
          The ticket was put right: “{load.reason}”. It is version {load.version}.
        </p>
      ) : null}
      {load.side === 'adviser' ? null : (
        <>
          {isSealed ? null : (
            <LoadStep
              load={load}
              role={role}
              series={series}
              hasResult={story !== undefined}
              requestKey={randomUUID()}
            />
          )}
          <LoadAllowance load={load} mayAnswer={may('record-choice')} allowances={allowances} />
        </>
      )}
      {price ? (
        <section aria-labelledby="price">
          <h2 id="price">{standing.status === 'settled' ? 'How it comes about' : 'What it would come to'}</h2>
          <PriceStair
            lines={price.lines}
            amounts={load.amounts}
            total={price.total}
            currency={load.currency}
          />
          <LoadQuotes references={price.references} />
        </section>
      ) : null}
      <LoadTicket
        load={load}
        story={story}
        isSealed={isSealed}
        isDecided={questions.some(({ isMoved, isWeight }) => isMoved && !isWeight)}
        mayTake={may('take-sample')}
      />
      {may('correct') ? (
        <p>
          <a className="plain-link" href={`/loads/${load.id}/correct`}>
            Something is wrong: put it right
          </a>
        </p>
      ) : null}
      {may('question') && !load.isVoid ? (
        <p>
          <a className="plain-link" href={`/retests/new?agreement=${load.agreementId}&load=${load.id}`}>
            Question its weight or a test
          </a>
        </p>
      ) : null}
      <LoadHistory
        partner={partnerOf(load)}
        history={load.history}
        timeZone={load.timeZone}
        isRefused={standing.status === 'refused'}
      />
    </>
  );
}

/** Whose people are not named to the reader. */
function partnerOf({ side, seller, buyer }: LoadView): string {
  if (side === 'adviser') return `somebody of ${seller} or ${buyer}`;
  return side === 'seller' ? buyer : seller;
}
