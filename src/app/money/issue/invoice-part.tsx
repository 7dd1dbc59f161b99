/**
 * Loads that can be invoiced now, by the invoice that each would go on, and the buttons that issue them.
 */
import { randomUUID } from 'node:crypto';
import type { Figures } from '../../../documents/figures.ts';
import type { IssueView, ReadyPeriod } from '../../../usecases/money/read-issue.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { issueAll, issueOver } from './issue-actions.ts';
import { daysWords, loadsWords, openPeriodWords, ticketsWords } from './issue-words.ts';

export interface PartProps {
  readonly view: IssueView;
  readonly figures: Figures;
  /** Whether the reader issues, by side and role. */
  readonly mayIssue: boolean;
}

export function InvoicePart({ view, figures, mayIssue }: PartProps) {
  const { agreementId, periods, corrected, lacking } = view;
  const over = periods.filter(({ isOver }) => isOver);
  const open = periods.filter(({ isOver }) => !isOver);
  const fields = [{ kind: 'hidden', name: 'agreement', value: agreementId }] as const;
  const isReady = over.length > 0 || corrected.length > 0;
  return (
    <section className="money-part" aria-labelledby="invoices">
      <h2 id="invoices">Invoices</h2>
      {periods.length + corrected.length === 0 ? (
        <p>No load is ready: every load that has settled is on an invoice.</p>
      ) : null}
      {over.length === 0 ? null : (
        <Periods title="Ready to be invoiced" periods={over} view={view} figures={figures} />
      )}
      {corrected.length === 0 ? null : (
        <p>
          {corrected.length === 1 ? 'Load' : 'Loads'} {ticketsWords(corrected)} changed since{' '}
          {corrected.length === 1 ? 'it was' : 'they were'} invoiced. A note puts that right.
        </p>
      )}
      {isReady && mayIssue ? (
        <RecordForm
          action={issueOver}
          submit={overLabel(over.length, corrected.length)}
          fields={fields}
          requestKey={randomUUID()}
        />
      ) : null}
      {open.length === 0 ? null : (
        <>
          <Periods title="Not over yet" periods={open} view={view} figures={figures} />
          {mayIssue ? (
            <>
              <p>{openPeriodWords(view)}</p>
              <RecordForm
                action={issueAll}
                submit={isReady ? 'Issue all of it now' : 'Issue it now all the same'}
                fields={fields}
                requestKey={randomUUID()}
                quiet
              />
            </>
          ) : null}
        </>
      )}
      {lacking.length === 0 ? null : (
        <p className="told">
          {lacking.length === 1 ? 'Load' : 'Loads'} {ticketsWords(lacking)}{' '}
          {lacking.length === 1 ? 'has' : 'have'} settled but cannot be invoiced: what is taken off depends on
          the dry matter, and no result tells it.{' '}
          <a href={`/results/new?agreement=${agreementId}`}>Enter the result</a>.
        </p>
      )}
    </section>
  );
}

function overLabel(invoices: number, corrected: number): string {
  if (invoices === 0) return corrected === 1 ? 'Issue the note' : 'Issue the notes';
  const named = invoices === 1 ? 'Issue this invoice' : `Issue ${invoices} invoices`;
  return corrected === 0 ? named : `${named} and the notes`;
}

function Periods({
  title,
  periods,
  view,
  figures,
}: Omit<PartProps, 'mayIssue'> & { readonly title: string; readonly periods: readonly ReadyPeriod[] }) {
  return (
    <table className="money-table">
      <caption>{title}</caption>
      <thead>
        <tr>
          <th scope="col">Delivered</th>
          <th scope="col">Loads</th>
          <th scope="col" className="amount">
            To pay, {view.currency}
          </th>
        </tr>
      </thead>
      <tbody>
        {periods.map((period) => (
          <tr key={period.tickets.join(' ')}>
            <th scope="row">{daysWords(period)}</th>
            <td>
              {loadsWords(period.tickets.length)}
              <span className="under">{ticketsWords(period.tickets)}</span>
            </td>
            <td className="amount">{figures.show(period.amount)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
