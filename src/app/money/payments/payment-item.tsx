/**
 * One payment: what was paid, what became of it, what it paid, and what the reader can do about it.
 */
import { randomUUID } from 'node:crypto';
import type { AgreementPayments, PaymentView } from '../../../usecases/money/read-payments.ts';
import type { Field } from '../../forms/field.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { confirmPaid, contestPaid, givenBack, takeBackPaid } from './payment-actions.ts';
import { paymentWords, spreadSentence, stateSentence } from './payment-words.ts';
import { SettledTable } from './settled-table.tsx';

export interface PaymentItemProps {
  readonly payment: PaymentView;
  readonly money: AgreementPayments;
  readonly show: (amount: string) => string;
  readonly mayAnswer: boolean;
}

export function PaymentItem({ payment, money, show, mayAnswer }: PaymentItemProps) {
  const words = { money, show };
  const { state, madeOutTo, pastLien, settles, wanted } = payment;
  // Money that the seller gives back comes off what is on account, and pays no document.
  const isBuyers = payment.isPaidByUs === (money.side === 'buyer');
  return (
    <li className="payment">
      <p className="payment-line">
        <span>{paymentWords(payment, words)}</span>{' '}
        <span className="amount">
          {show(payment.amount)} {money.currency}
        </span>
      </p>
      {madeOutTo === 'jointly' ? <p>It was made out to {money.seller} and its lender, jointly.</p> : null}
      {pastLien === null ? null : (
        <p>
          It was made out to {money.seller} alone, past a lender: “{pastLien}”.
        </p>
      )}
      {state === 'recorded' && isBuyers ? <p>{spreadSentence(wanted, words)}</p> : null}
      <p>{stateSentence(payment, words)}</p>
      <SettledTable
        settles={settles}
        currency={money.currency}
        show={show}
        word={state === 'returned' ? 'Had paid' : 'Paid'}
      />
      {payment.toAccount === '' ? null : (
        <p>
          {show(payment.toAccount)} {money.currency} of it paid no document and went on account.
        </p>
      )}
      {mayAnswer ? <Answers payment={payment} money={money} show={show} /> : null}
    </li>
  );
}

function Answers({ payment, money, show }: Omit<PaymentItemProps, 'mayAnswer'>) {
  const { paymentId, state, isPaidByUs } = payment;
  const about: readonly Field[] = [
    { kind: 'hidden', name: 'agreement', value: money.agreementId },
    { kind: 'hidden', name: 'partner', value: money.partner },
    { kind: 'hidden', name: 'payment', value: paymentId },
  ];
  if (state === 'confirmed' && !isPaidByUs) {
    return <GivenBack payment={payment} money={money} about={about} show={show} />;
  }
  if (state !== 'recorded') return null;
  if (isPaidByUs) {
    return (
      <RecordForm
        action={takeBackPaid}
        submit="Take the record back"
        fields={about}
        requestKey={randomUUID()}
        quiet
      />
    );
  }
  return (
    <>
      <RecordForm
        action={confirmPaid}
        submit={`Confirm that ${show(payment.amount)} ${money.currency} came`}
        fields={about}
        requestKey={randomUUID()}
      />
      <details className="more-fields">
        <summary>It did not come, or not like this</summary>
        <p>{money.partner} is told why, and it counts for nothing.</p>
        <RecordForm
          action={contestPaid}
          submit="Contest it"
          fields={[...about, { kind: 'text', name: 'reason', label: 'What is wrong' }]}
          requestKey={randomUUID()}
          scope={`contest-${paymentId}`}
          quiet
        />
      </details>
    </>
  );
}

interface GivenBackProps {
  readonly payment: PaymentView;
  readonly money: AgreementPayments;
  readonly about: readonly Field[];
  readonly show: (amount: string) => string;
}

function GivenBack({ payment: { paymentId, name }, money, about, show }: GivenBackProps) {
  const { returnedPaymentFee, side, partner, currency, today } = money;
  const isFee = returnedPaymentFee !== null && side === 'seller';
  return (
    <details className="more-fields">
      <summary>
        The bank gave it back<span className="visually-hidden">: {name}</span>
      </summary>
      <p>
        Whatever it paid is open again, with the days on which it was due before.
        {isFee
          ? ` ${partner} is charged the agreed fee of ${show(returnedPaymentFee)} ${currency} at once, by a document of its own.`
          : ''}
      </p>
      <RecordForm
        action={givenBack}
        submit="Record that the bank gave it back"
        fields={[
          ...about,
          { kind: 'date', name: 'reversed_on', label: 'Given back on', value: today },
          { kind: 'text', name: 'reason', label: 'What the bank says', hint: 'Both sides read it.' },
        ]}
        requestKey={randomUUID()}
        scope={`given-back-${paymentId}`}
        quiet
      />
    </details>
  );
}
