/**
 * How the payments of an own list and of the record end, the sums first, then each that does not agree.
 */
import type { ReactNode } from 'react';
import type { Figures } from '../../../../documents/figures.ts';
import type { PaymentOutcome } from '../../../../domain/matching/payments/match-payments.ts';
import type { PaymentListRow } from '../../../../domain/matching/payments/payment-list-row.ts';
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
import { AcceptForm } from './accept-form.tsx';
import { Compared, sidesOf } from './compared.tsx';

export interface PaymentMatchingPartProps {
  readonly matching: PaymentMatchingView;
  readonly figures: Figures;
  readonly timeZone: string;
  readonly agreementId: string;
  readonly mayAccept: boolean;
  /** Whether the reader may put a difference to the other side. */
  readonly mayPut: boolean;
  /** What is said above the rows that do not agree. */
  readonly before: ReactNode;
}

export function PaymentMatchingPart({
  matching,
  figures,
  timeZone,
  agreementId,
  mayAccept,
  mayPut,
  before,
}: PaymentMatchingPartProps) {
  const { ownRows, recordRows, open, accepted, currency, side } = matching;
  const rows = [...open, ...accepted].flatMap((outcome) => sidesOf(outcome).recorded ?? []);
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
    show: figures.show,
    side,
  };
  return (
    <Compared
      matching={matching}
      standings={PAYMENT_STANDINGS}
      names={names}
      ids={{ heading: 'payment-matching', standing: 'payment' }}
      sizes={`${figures.show(String(ownRows))} payments. The record has ${figures.show(String(recordRows))} that count.`}
      before={before}
      item={(outcome, ending) => (
        <>
          <Item outcome={outcome} names={names} figures={figures} />
          {mayAccept ? (
            <AcceptForm
              agreementId={agreementId}
              kind="own-payments"
              fingerprint={outcome.fingerprint}
              isAccepted={ending === 'accepted'}
            />
          ) : null}
          {mayPut && ending === 'open' ? (
            <p>
              <a href={`/agreements/${agreementId}/season-close#differences`}>Leave it standing</a>
            </p>
          ) : null}
        </>
      )}
      figures={figures}
      timeZone={timeZone}
    >
      {open.length === 0 ? null : (
        <p className="hint">Payments that wait for the payee’s word do not count yet and are not compared.</p>
      )}
    </Compared>
  );
}

interface ItemProps {
  readonly outcome: PaymentOutcome;
  readonly names: PaymentNames;
  readonly figures: Figures;
}

function Item({ outcome, names, figures }: ItemProps) {
  const { own, recorded } = sidesOf(outcome);
  const words = (row: PaymentListRow) =>
    `${row.paidOn}, ${paymentInWords(row, figures.show)} ${names.currency} ${directionInWords(row.amount, names.side)}`;
  return (
    <>
      <h5>
        {own ? `Line ${own.id}: ${words(own)}` : null}
        {own && recorded ? <br /> : null}
        {recorded ? `Record: ${words(recorded)}` : null}
      </h5>
      {paymentOutcomeInWords(outcome, names).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </>
  );
}
