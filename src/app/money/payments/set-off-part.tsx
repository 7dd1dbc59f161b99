/**
 * Money on account: how much there is, what was proposed to use it for, and a proposal of one's own.
 */
import { randomUUID } from 'node:crypto';
import type { AgreementPayments, SetOffView } from '../../../usecases/money/read-payments.ts';
import type { Field } from '../../forms/field.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import { spreadFields } from '../spread-fields.ts';
import { setOffSentence, spreadSentence } from './payment-words.ts';
import { agree, propose, refuse, takeBack } from './set-off-actions.ts';
import { SettledTable } from './settled-table.tsx';

interface SetOffProps {
  readonly money: AgreementPayments;
  readonly show: (amount: string) => string;
  readonly mayAnswer: boolean;
}

export function SetOffPart({ money, show, mayAnswer }: SetOffProps) {
  const { isOnAccount, side, partner, onAccount, currency, setOffs, payable } = money;
  // What waits for an answer stands above all else.
  const rest = setOffs.filter(({ state, isOurs }) => state !== 'open' || isOurs);
  if (!isOnAccount && rest.length === 0) return null;
  return (
    <section aria-labelledby="on-account">
      <h2 id="on-account">Money on account</h2>
      <p>
        {isOnAccount
          ? `${side === 'buyer' ? 'You have' : `${partner} has`} ${show(onAccount)} ${currency} on account: paid, and used for no document yet.`
          : 'Nothing is on account now.'}
      </p>
      {isOnAccount && payable.length === 0 ? (
        <p>Nothing is due that it could be used for. It stays on account, or {money.seller} pays it back.</p>
      ) : null}
      {isOnAccount && mayAnswer && payable.length > 0 ? <Propose money={money} show={show} /> : null}
      {rest.length === 0 ? null : (
        <ul className="payments">
          {rest.map((setOff) => (
            <SetOffItem
              key={setOff.setOffId}
              setOff={setOff}
              money={money}
              show={show}
              mayAnswer={mayAnswer}
            />
          ))}
        </ul>
      )}
    </section>
  );
}

function Propose({ money, show }: Omit<SetOffProps, 'mayAnswer'>) {
  const { partner, currency, onAccount, agreementId } = money;
  return (
    <details className="more-fields">
      <summary>Propose to use it for what is due</summary>
      <p>Nothing is used until {partner} agrees.</p>
      <RecordForm
        action={propose}
        submit={`Propose it to ${partner}`}
        fields={[
          { kind: 'hidden', name: 'agreement', value: agreementId },
          { kind: 'hidden', name: 'partner', value: partner },
          {
            kind: 'text',
            name: 'amount',
            label: 'Amount',
            keys: 'decimal',
            unit: currency,
            hint: `At most ${show(onAccount)}.`,
          },
          ...spreadFields(money, show),
          { kind: 'text', name: 'reason', label: 'Why', hint: 'Both sides read it.' },
        ]}
        requestKey={randomUUID()}
        scope="set-off"
        quiet
      />
    </details>
  );
}

export interface SetOffItemProps extends SetOffProps {
  readonly setOff: SetOffView;
}

export function SetOffItem({ setOff, money, show, mayAnswer }: SetOffItemProps) {
  const words = { money, show };
  return (
    <li className="payment">
      <p>{setOffSentence(setOff, words)}</p>
      {setOff.state === 'open' ? <p>{spreadSentence(setOff.wanted, words)}</p> : null}
      <SettledTable settles={setOff.settles} currency={money.currency} show={show} word="Used" />
      {setOff.state === 'open' && mayAnswer ? <Answers setOff={setOff} money={money} show={show} /> : null}
    </li>
  );
}

function Answers({ setOff, money, show }: Omit<SetOffItemProps, 'mayAnswer'>) {
  const about: readonly Field[] = [
    { kind: 'hidden', name: 'agreement', value: money.agreementId },
    { kind: 'hidden', name: 'partner', value: money.partner },
    { kind: 'hidden', name: 'setOff', value: setOff.setOffId },
  ];
  if (setOff.isOurs) {
    return (
      <RecordForm
        action={takeBack}
        submit="Take the proposal back"
        fields={about}
        requestKey={randomUUID()}
        quiet
      />
    );
  }
  return (
    <>
      <RecordForm
        action={agree}
        submit={`Agree: use ${show(setOff.amount)} ${money.currency}`}
        fields={about}
        requestKey={randomUUID()}
      />
      <details className="more-fields">
        <summary>Refuse it</summary>
        <RecordForm
          action={refuse}
          submit="Refuse this proposal"
          fields={[...about, { kind: 'text', name: 'reason', label: 'Why not' }]}
          requestKey={randomUUID()}
          scope={`refuse-${setOff.setOffId}`}
          quiet
        />
      </details>
    </>
  );
}
