/**
 * The payments of an agreement: what waits for the reader's answer, money on account, and every payment, newest first.
 */
import { figuresFor } from '../../../documents/figures.ts';
import { mayDo } from '../../../domain/parties/permissions.ts';
import type { AgreementPayments } from '../../../usecases/money/read-payments.ts';
import type { Asked } from '../../place/asked.ts';
import { ask } from '../../server/ask.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { toldBy } from '../../server/told.ts';
import { chooseMoney, MoneyHead } from '../chosen-money.tsx';
import { nameList } from '../name-list.ts';
import { PaymentItem } from './payment-item.tsx';
import { SetOffItem, SetOffPart } from './set-off-part.tsx';

export const metadata = { title: 'Payments' };

export default async function PaymentsPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const [asked, locale] = [await searchParams, await readerLocale()];
  const { chosen, mayAnswer } = await ask(async (context) => ({
    chosen: await chooseMoney(context, { asked, locale, verb: 'read' }),
    mayAnswer: mayDo(context.caller.role, 'record-payment'),
  }));
  const { money } = chosen;
  return (
    <>
      <MoneyHead chosen={chosen} title="Payments" path="/money/payments" told={await toldBy(asked)} />
      {money?.isSealed ? (
        <p className="told">Its season is sealed: no payment is recorded or answered any more.</p>
      ) : null}
      {money ? (
        <Payments money={money} show={figuresFor(locale).show} mayAnswer={mayAnswer && !money.isSealed} />
      ) : null}
    </>
  );
}

interface PaymentsProps {
  readonly money: AgreementPayments;
  readonly show: (amount: string) => string;
  readonly mayAnswer: boolean;
}

function Payments({ money, show, mayAnswer }: PaymentsProps) {
  const { payments, setOffs, agreementId, side } = money;
  const asking = payments.filter(({ state, isPaidByUs }) => state === 'recorded' && !isPaidByUs);
  const proposed = setOffs.filter(({ state, isOurs }) => state === 'open' && !isOurs);
  const rest = payments.filter((payment) => !asking.includes(payment));
  const given = { money, show, mayAnswer };
  return (
    <>
      <section aria-labelledby="yours">
        <h2 id="yours">Waiting for your answer</h2>
        {asking.length + proposed.length === 0 ? (
          <p>Nothing.</p>
        ) : (
          <ul className="payments">
            {asking.map((payment) => (
              <PaymentItem key={payment.paymentId} payment={payment} {...given} />
            ))}
            {proposed.map((setOff) => (
              <SetOffItem key={setOff.setOffId} setOff={setOff} {...given} />
            ))}
          </ul>
        )}
      </section>
      {mayAnswer ? (
        <p>
          <a
            className={asking.length === 0 ? 'act-link' : 'plain-link'}
            href={`/money/pay?agreement=${agreementId}`}
          >
            {side === 'buyer' ? 'Record a payment that you made' : 'Record a payment that you received'}
          </a>
        </p>
      ) : null}
      <SetOffPart {...given} />
      <section aria-labelledby="payments">
        <h2 id="payments">{asking.length === 0 ? 'All payments' : 'All other payments'}, newest first</h2>
        {rest.length === 0 ? (
          <p>None is recorded.</p>
        ) : (
          <ul className="payments">
            {rest.map((payment) => (
              <PaymentItem key={payment.paymentId} payment={payment} {...given} />
            ))}
          </ul>
        )}
      </section>
      <section aria-labelledby="liens">
        <h2 id="liens">Lenders with a lien on the feed</h2>
        <p>
          {money.jointPayees.length === 0
            ? 'No lender is to be named on a payment. '
            : `${nameList(money.jointPayees)}: each payment is to be made out to ${nameList([money.seller, ...money.jointPayees])}, jointly. `}
          <a href={`/money/liens?agreement=${agreementId}`}>Lenders’ notices</a>
        </p>
      </section>
    </>
  );
}
