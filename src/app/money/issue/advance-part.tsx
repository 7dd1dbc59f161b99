/**
 * Advances and interest: what each would come to now, and the button that issues it. Nothing stands here of what is not agreed.
 */
import { randomUUID } from 'node:crypto';
import { signOf, unsigned } from '../../../documents/amount-strings.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import type { PartProps } from './invoice-part.tsx';
import { charge, advance as giveAdvance } from './issue-actions.ts';
import { loadsWords, ticketsWords } from './issue-words.ts';

export function AdvancePart({ view, figures, mayIssue }: PartProps) {
  const { agreementId, advance, currency } = view;
  if (!advance) return null;
  const { tickets, amount, sharePercent } = advance;
  return (
    <section className="money-part" aria-labelledby="advances">
      <h2 id="advances">Advances</h2>
      {tickets.length === 0 ? (
        <p>
          No load waits without an advance. {sharePercent} % of what a load is thought to be worth is agreed
          while it waits for a result or a price.
        </p>
      ) : (
        <>
          <p>
            {tickets.length === 1 ? 'One load waits' : `${tickets.length} loads wait`} for a result or a price
            and may have an advance: {sharePercent} % of the estimate comes to{' '}
            <strong className="amount">
              {figures.show(amount)} {currency}
            </strong>{' '}
            for {loadsWords(tickets.length)} ({ticketsWords(tickets)}). It is taken off when they are
            invoiced.
          </p>
          {mayIssue ? (
            <RecordForm
              action={giveAdvance}
              submit="Issue the advance invoice"
              fields={[{ kind: 'hidden', name: 'agreement', value: agreementId }]}
              requestKey={randomUUID()}
              quiet
            />
          ) : null}
        </>
      )}
    </section>
  );
}

export function InterestPart({ view, figures, mayIssue }: PartProps) {
  const { agreementId, interest, currency, today } = view;
  if (!interest) return null;
  const { percentPerYear, amount, chargedThrough } = interest;
  const sum = `${figures.show(unsigned(amount))} ${currency}`;
  const words = {
    1: `Through today, ${today}, it comes to ${sum} that is not charged yet.`,
    0: `Through today, ${today}, there is nothing to charge.`,
    '-1': `Too much was charged before: a credit note would give ${sum} back.`,
  }[signOf(amount)];
  return (
    <section className="money-part" aria-labelledby="interest">
      <h2 id="interest">Interest on what is late</h2>
      <p>
        {percentPerYear} % a year is agreed on what is past its due date and not held. {words}
        {chargedThrough === null ? null : ` It was last charged through ${chargedThrough}.`}
      </p>
      {mayIssue && signOf(amount) !== 0 ? (
        <RecordForm
          action={charge}
          submit={signOf(amount) < 0 ? 'Issue the credit note' : 'Charge interest'}
          requestKey={randomUUID()}
          quiet
          fields={[
            { kind: 'hidden', name: 'agreement', value: agreementId },
            {
              kind: 'date',
              name: 'through',
              label: 'Through which day',
              hint: 'The last day that counts, today at the latest. An earlier day comes to less.',
              value: today,
            },
          ]}
        />
      ) : null}
    </section>
  );
}
