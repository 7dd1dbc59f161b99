/**
 * The ticket book of an agreement: every number of its series is accounted for, so that no load is left out and none
 * slipped in.
 */
import { randomUUID } from 'node:crypto';
import { readAgreementWords } from '../../../../usecases/agreements/read-agreement-words.ts';
import { readTicketBook } from '../../../../usecases/loads/read-ticket-book.ts';
import type { Field } from '../../../forms/field.ts';
import { RecordForm } from '../../../forms/record-form.tsx';
import { type Asked, askedText } from '../../../place/asked.ts';
import { mayAct } from '../../../place/may-act.ts';
import { Told } from '../../../place/told.tsx';
import { ask } from '../../../server/ask.ts';
import { toldBy } from '../../../server/told.ts';
import { EntryTable, SeriesView } from './series-view.tsx';
import { beginSeries, spend } from './ticket-actions.ts';

export const metadata = { title: 'Ticket book' };

export interface TicketsPageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Asked>;
}

export default async function TicketsPage({ params, searchParams }: TicketsPageProps) {
  const [{ id }, asked] = [await params, await searchParams];
  const { agreement, book, role } = await ask(async (context) => ({
    agreement: await readAgreementWords(context, { agreementId: id }),
    book: await readTicketBook(context, { agreementId: id }),
    role: context.caller.role,
  }));
  const { number, seller, buyer } = agreement;
  const told = await toldBy(asked);
  const { series, others } = book;
  const missing = series.flatMap((of) => of.missing).reduce((sum, { count }) => sum + count, 0);
  const [gap] = series.flatMap((of) => of.missing);
  return (
    <>
      <h1>Ticket book</h1>
      <p className="quiet-word">
        {seller} to {buyer}, agreement <a href={`/agreements/${id}`}>{number}</a>
      </p>
      <Told told={told} />
      <p className={missing > 0 ? 'standing' : undefined}>{standing(series.length, missing)}</p>
      {!agreement.isSealed && mayAct(agreement.side, role, 'record-load') && series.length > 0 ? (
        <details className="more-fields" open={missing > 0}>
          <summary>Account for a number that is no load</summary>
          <div className="narrow">
            <RecordForm
              action={spend}
              submit="Account for it"
              fields={spendFields(id, askedText(asked, 'ticket') ?? gap?.from)}
              requestKey={randomUUID()}
              scope="spend"
            />
          </div>
        </details>
      ) : null}
      {series.map((of, index) => (
        <SeriesView key={of.first} book={of} index={index + 1} />
      ))}
      {!agreement.isSealed && mayAct(agreement.side, role, 'keep-scale') ? (
        <section aria-labelledby="begin">
          <h2 id="begin">{series.length === 0 ? 'Begin a series' : 'Another series'}</h2>
          <div className="narrow">
            <RecordForm
              action={beginSeries}
              submit="Begin this series"
              fields={seriesFields(id)}
              requestKey={randomUUID()}
              scope="series"
              quiet={series.length > 0}
            />
          </div>
        </section>
      ) : null}
      {others.length === 0 ? null : (
        <details className="more-fields">
          <summary>{others.length === 1 ? 'One ticket' : `${others.length} tickets`} of no series</summary>
          <EntryTable entries={others} label="Tickets of no series" />
        </details>
      )}
    </>
  );
}

function standing(series: number, missing: number): string {
  if (series === 0) {
    return 'No series is begun. Once one is, every number of it is accounted for, and one that is missing is seen here.';
  }
  if (missing === 0) return 'Every number is accounted for.';
  return missing === 1
    ? 'One number is missing.'
    : `${missing} numbers are missing: weighed and not recorded, spoiled, or used for something else.`;
}

function seriesFields(agreementId: string): readonly Field[] {
  return [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    {
      kind: 'row',
      fields: [
        {
          kind: 'text',
          name: 'prefix',
          label: 'Before the digits',
          hint: 'Like “K-”. Empty for plain numbers.',
        },
        {
          kind: 'text',
          name: 'first',
          label: 'Digits of the first ticket',
          hint: 'As they are printed: 000123 counts with zeros, 123 without.',
          keys: 'decimal',
        },
      ],
    },
  ];
}

function spendFields(agreementId: string, ticket: string | undefined): readonly Field[] {
  return [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    { kind: 'text', name: 'ticket', label: 'Ticket', ...(ticket === undefined ? {} : { value: ticket }) },
    {
      kind: 'choice',
      name: 'use',
      label: 'What became of it',
      options: [
        { value: 'void', label: 'Void: spoiled or never printed' },
        { value: 'elsewhere', label: 'Used for something else' },
      ],
    },
    { kind: 'text', name: 'reason', label: 'Why', hint: 'Both sides read it.' },
  ];
}
