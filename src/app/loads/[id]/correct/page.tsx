/**
 * Putting a load's ticket or result right: directly while it waits, by a proposal to the other side once it has settled.
 */
import { randomUUID } from 'node:crypto';
import { redirect } from 'next/navigation';
import { readSubject, type SubjectView } from '../../../../usecases/corrections/read-subject.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { ask } from '../../../server/ask.ts';
import { correctResultOf, correctTicket, voidTicket } from './correct-actions.ts';
import { resultRightFields, ticketRightFields } from './right-fields.ts';

export const metadata = { title: 'Put it right' };

export default async function CorrectPage({ params }: { readonly params: Promise<{ readonly id: string }> }) {
  const { id } = await params;
  const subject = await ask((context) => readSubject(context, { loadId: id }));
  // The load's page says why nothing can be put right.
  if (subject.isSealed) redirect(`/loads/${id}`);
  const { ticket, isSettled, partner, isVoid } = subject;
  return (
    <div className="narrow">
      <h1>Put load {ticket['ticket']} right</h1>
      <p>
        {isSettled
          ? `It has settled, so this is a proposal: nothing changes until ${partner} confirms it.`
          : `It has not settled, so this takes effect at once. ${partner} sees it, with your reason.`}{' '}
        What was recorded first stays to be read.
      </p>
      {isVoid ? <p className="told">This ticket is void.</p> : null}
      <section aria-labelledby="ticket">
        <h2 id="ticket">The scale ticket</h2>
        {subject.isTicketOpen ? (
          <Open />
        ) : (
          <RecordForm
            action={correctTicket}
            submit={isSettled ? `Propose it to ${partner}` : 'Put the ticket right'}
            requestKey={randomUUID()}
            fields={ticketRightFields(subject)}
          />
        )}
      </section>
      <ResultPart subject={subject} />
      {isSettled || isVoid ? null : (
        <section aria-labelledby="void">
          <h2 id="void">Void the ticket</h2>
          <p>A void ticket is no delivery. Its number stays taken, with your reason.</p>
          <RecordForm
            action={voidTicket}
            submit="Void this ticket"
            requestKey={randomUUID()}
            quiet
            fields={[
              { kind: 'hidden', name: 'load', value: subject.loadId },
              { kind: 'hidden', name: 'version', value: String(subject.version) },
              { kind: 'text', name: 'reason', label: 'Why it is void' },
            ]}
          />
        </section>
      )}
    </div>
  );
}

function ResultPart({ subject }: { readonly subject: SubjectView }) {
  const { result, isSettled, partner, isResultOpen } = subject;
  if (!result) return null;
  return (
    <section aria-labelledby="result">
      <h2 id="result">The result of sample {result.sample}</h2>
      {isResultOpen ? <Open /> : null}
      {isResultOpen || result.isOurs || isSettled ? null : (
        <p>{partner} entered it. Contest it on the load’s page, and they put it right.</p>
      )}
      {isResultOpen || !(result.isOurs || isSettled) ? null : (
        <RecordForm
          action={correctResultOf}
          submit={isSettled ? `Propose it to ${partner}` : 'Put the result right'}
          requestKey={randomUUID()}
          fields={resultRightFields(subject, result)}
        />
      )}
    </section>
  );
}

function Open() {
  return (
    <p>
      A correction of it is open already: <a href="/corrections">see corrections</a>.
    </p>
  );
}
