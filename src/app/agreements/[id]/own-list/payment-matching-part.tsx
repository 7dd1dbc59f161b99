/**
 * How the payments of an own list and of the record end, the sums first, then each that does not agree.
 */
import type { Figures } from '../../../../documents/figures.ts';
import {
  type PaymentOutcome,
  paymentStandings,
} from '../../../../domain/matching/payments/match-payments.ts';
import type { PaymentListRow } from '../../../../domain/matching/payments/payment-list-row.ts';
import { standingInWords } from '../../../../domain/words/matching-words.ts';
import {
  directionInWords,
  type PaymentNames,
  paymentInWords,
  paymentOutcomeInWords,
} from '../../../../domain/words/payment-matching-words.ts';
import {
  PAYMENT_STANDINGS,
  type PaymentMatchingView,
} from '../../../../usecases/season-close/read-payment-matching.ts';

export interface PaymentMatchingPartProps {
  readonly matching: PaymentMatchingView;
  readonly figures: Figures;
  readonly timeZone: string;
  readonly agreementId: string;
}

/** As many as a person looks through at once; the others come once these are settled. */
const MOST_SHOWN = 200;

export function PaymentMatchingPart({ matching, figures, timeZone, agreementId }: PaymentMatchingPartProps) {
  const { fileName, broughtAt, ownRows, recordRows, counts, open, currency, side } = matching;
  const rows = open.flatMap((one) =>
    one.kind === 'pair' ? [one.record] : one.in === 'record' ? [one.row] : [],
  );
  const recorded = new Map(rows.map((row) => [row.id, row]));
  const names: PaymentNames = {
    mine: 'your list',
    record: 'the record',
    load: (list, id) => {
      const row = recorded.get(id);
      if (list === 'mine') return `line ${id} of your list`;
      return row ? `${paymentInWords(row, figures.show)}, in the record` : 'another payment of the record';
    },
    currency,
    side,
  };
  const day = new Intl.DateTimeFormat('sv-SE', { timeZone }).format(new Date(broughtAt));
  return (
    <section aria-labelledby="payment-matching">
      <h3 id="payment-matching">
        {counts.agrees === ownRows && open.length === 0 ? 'Everything agrees' : 'How they compare'}
      </h3>
      <p className="quiet-word">
        {fileName}, brought on {day}: {figures.show(String(ownRows))} payments. The record has{' '}
        {figures.show(String(recordRows))} that count.
      </p>
      <dl className="facts sums">
        {PAYMENT_STANDINGS.filter((standing) => standing === 'agrees' || counts[standing] > 0).map(
          (standing) => (
            <div key={standing}>
              <dt>{standingInWords(standing, names)}</dt>
              <dd className="amount">{figures.show(String(counts[standing]))}</dd>
            </div>
          ),
        )}
      </dl>
      {PAYMENT_STANDINGS.filter((standing) => standing !== 'agrees').map((standing) => {
        const of = open.filter((outcome) => paymentStandings(outcome)[0] === standing);
        if (of.length === 0) return null;
        return (
          <section key={standing} aria-labelledby={`payment-${standing}`}>
            <h4 id={`payment-${standing}`}>{standingInWords(standing, names)}</h4>
            <ul className="corrections">
              {of.slice(0, MOST_SHOWN).map((outcome) => (
                <Item key={keyOf(outcome)} outcome={outcome} names={names} figures={figures} />
              ))}
            </ul>
            {of.length > MOST_SHOWN ? (
              <p>{figures.show(String(of.length - MOST_SHOWN))} more are not shown.</p>
            ) : null}
          </section>
        );
      })}
      {open.length === 0 ? null : (
        <p className="hint">
          If the record is wrong, put it right among{' '}
          <a href={`/money/payments?agreement=${agreementId}`}>the payments</a>. If your list is wrong, put it
          right there and bring it again. Payments that wait for the payee’s word do not count yet and are not
          compared.
        </p>
      )}
    </section>
  );
}

function keyOf(outcome: PaymentOutcome): string {
  return outcome.kind === 'pair'
    ? `${outcome.mine.id} ${outcome.record.id}`
    : `${outcome.in} ${outcome.row.id}`;
}

interface ItemProps {
  readonly outcome: PaymentOutcome;
  readonly names: PaymentNames;
  readonly figures: Figures;
}

function Item({ outcome, names, figures }: ItemProps) {
  const own = outcome.kind === 'pair' ? outcome.mine : outcome.in === 'mine' ? outcome.row : undefined;
  const recorded =
    outcome.kind === 'pair' ? outcome.record : outcome.in === 'record' ? outcome.row : undefined;
  const words = (row: PaymentListRow) =>
    `${row.paidOn}, ${paymentInWords(row, figures.show)} ${names.currency} ${directionInWords(row.amount, names.side)}`;
  return (
    <li className="correction">
      <h5>
        {own ? `Line ${own.id}: ${words(own)}` : null}
        {own && recorded ? <br /> : null}
        {recorded ? `Record: ${words(recorded)}` : null}
      </h5>
      {paymentOutcomeInWords(outcome, names).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </li>
  );
}
