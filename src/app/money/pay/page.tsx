/**
 * Recording a payment: what is due, what lenders are to be named, and what was paid.
 */
import { randomUUID } from 'node:crypto';
import { figuresFor } from '../../../documents/figures.ts';
import { dayInWords } from '../../../domain/dates/day-words.ts';
import type { AgreementPayments } from '../../../usecases/money/read-payments.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import type { Asked } from '../../place/asked.ts';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { toldBy } from '../../server/told.ts';
import { chooseMoney, MoneyHead } from '../chosen-money.tsx';
import { LienCaution } from '../lien-caution.tsx';
import { PayableTable } from '../payable-table.tsx';
import { pay } from './pay-actions.ts';
import { backFields, paymentFields } from './payment-fields.ts';

export const metadata = { title: 'Record a payment' };

const PATH = '/money/pay';

export default async function PayPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const chosen = await ask((context) => chooseMoney(context, { asked, locale, verb: 'record-payment' }));
  const { money } = chosen;
  return (
    <div className="narrow">
      <MoneyHead chosen={chosen} title="Record a payment" path={PATH} told={await toldBy(asked)} />
      {money ? <Pay money={money} show={figuresFor(locale).show} /> : null}
    </div>
  );
}

interface PayProps {
  readonly money: AgreementPayments;
  readonly show: (amount: string) => string;
}

function Pay({ money, show }: PayProps) {
  const { partner, side } = money;
  return (
    <>
      <p className="caution">This records a payment that was made. It moves no money: your bank does that.</p>
      <Unanswered money={money} show={show} />
      <section aria-labelledby="due">
        <h2 id="due">{side === 'buyer' ? `What you owe ${partner}` : `What ${partner} owes you`}</h2>
        <PayableTable money={money} show={show} />
        {money.isOnAccount ? (
          <p>
            {side === 'buyer' ? 'You have' : `${partner} has`} {show(money.onAccount)} {money.currency} on
            account. It pays nothing by itself:{' '}
            <a href={`/money/payments?agreement=${money.agreementId}`}>propose to use it</a>.
          </p>
        ) : null}
      </section>
      <section aria-labelledby="paid" className="payment-form">
        <h2 id="paid">{side === 'buyer' ? `You paid ${partner}` : `${partner} paid you`}</h2>
        <LienCaution money={money} />
        <RecordForm
          action={pay}
          submit={side === 'buyer' ? 'Record what you paid' : 'Record what you received'}
          fields={paymentFields(money, show)}
          requestKey={randomUUID()}
        />
        <p className="hint">
          {side === 'buyer'
            ? `What happens next: ${partner} is told, and confirms that it came or contests it. Until then every invoice stays open, and you can take the record back.`
            : `What happens next: it counts at once, and ${partner} is told. What it does not cover stays open.`}
        </p>
      </section>
      {money.isOnAccount ? (
        <details className="more-fields">
          <summary>
            {side === 'seller' ? `You paid money back to ${partner}` : `${partner} paid money back to you`}
          </summary>
          <p>
            {show(money.onAccount)} {money.currency} is on account: no more than that can be paid back.{' '}
            {side === 'seller'
              ? `It counts once ${partner} confirms that it came.`
              : `It counts at once, and ${partner} is told.`}
          </p>
          <RecordForm
            action={pay}
            submit={side === 'seller' ? 'Record what you paid back' : 'Record what came back'}
            fields={backFields(money)}
            requestKey={randomUUID()}
            scope="back"
            quiet
          />
        </details>
      ) : null}
    </>
  );
}

/** What is recorded and counts for nothing yet: whoever misses it records it a second time. */
function Unanswered({ money, show }: PayProps) {
  const { payments, partner, currency, today, agreementId } = money;
  const open = payments.filter(({ state }) => state === 'recorded');
  if (open.length === 0) return null;
  return (
    <div className="unanswered">
      <p>
        <strong>Recorded already, and not taken off below:</strong>
      </p>
      <ul>
        {open.map(({ paymentId, name, amount, paidOn, isPaidByUs }) => (
          <li key={paymentId}>
            {isPaidByUs ? 'You paid' : `${partner} paid you`} {show(amount)} {currency} on{' '}
            {dayInWords(paidOn, today)} ({name}).{' '}
            {isPaidByUs ? (
              `${partner} has not confirmed it.`
            ) : (
              <a href={`/money/payments?agreement=${agreementId}`}>Confirm that one, or contest it.</a>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}
