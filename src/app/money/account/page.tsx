/**
 * Where money is to go: the party's own account, and the newest of each partner with the day since when.
 */
import { randomUUID } from 'node:crypto';
import { mayDo } from '../../../domain/parties/permissions.ts';
import {
  type AccountView,
  type PartnerAccount,
  readOwnAccount,
  readPartnerAccounts,
} from '../../../usecases/money/read-accounts.ts';
import type { Field } from '../../forms/field.ts';
import { RecordForm } from '../../forms/record-form.tsx';
import type { Asked } from '../../place/asked.ts';
import { Told } from '../../place/told.tsx';
import { ask } from '../../server/ask.ts';
import { toldBy } from '../../server/told.ts';
import { keep } from './account-actions.ts';
import { AccountFacts } from './account-facts.tsx';

export const metadata = { title: 'Accounts' };

export default async function AccountPage({ searchParams }: { readonly searchParams: Promise<Asked> }) {
  const { own, partners, mayKeep, today } = await ask(async (context) => ({
    own: await readOwnAccount(context),
    partners: await readPartnerAccounts(context),
    mayKeep: mayDo(context.caller.role, 'keep-account'),
    today: new Date(context.now()).toISOString().slice(0, 10),
  }));
  const told = await toldBy(await searchParams);
  return (
    <div className="narrow">
      <h1>Accounts</h1>
      <p className="quiet-word">
        Where money is to go · <a href="/money">Money</a>
      </p>
      <Told told={told} />
      <p className="caution">
        A changed account is how money is stolen. Before you pay to an account that is new or has changed,
        call the other party at a number that you already know, never one from the message that told you.
      </p>
      <section aria-labelledby="own">
        <h2 id="own">Where you want your money</h2>
        {own ? (
          <AccountFacts account={own} today={today} />
        ) : (
          <p>No account is given. Others are told to pay you by check.</p>
        )}
        {mayKeep ? <Keep own={own} /> : <p className="hint">An owner of your party gives or changes it.</p>}
      </section>
      {partners.length === 0 ? null : (
        <section aria-labelledby="partners">
          <h2 id="partners">Where the others want theirs</h2>
          <ul className="payments">
            {partners.map((partner) => (
              <Partner key={partner.partnerId} partner={partner} today={today} />
            ))}
          </ul>
        </section>
      )}
    </div>
  );
}

function Keep({ own }: { readonly own: AccountView | null }) {
  return (
    <details className="more-fields" open={own === null}>
      <summary>{own ? 'Change it' : 'Give an account'}</summary>
      <p>
        Everybody who has an agreement with you sees it and is told that it changed. Compare each digit with
        the bank’s paper: a payment to a wrong account may not come back.
      </p>
      <RecordForm
        action={keep}
        submit={own ? 'Change the account' : 'Keep this account'}
        fields={accountFields(own)}
        requestKey={randomUUID()}
      />
    </details>
  );
}

function accountFields(own: AccountView | null): readonly Field[] {
  return [
    {
      kind: 'text',
      name: 'holder',
      label: 'Account holder',
      hint: 'As the bank knows it.',
      value: own?.holder ?? '',
    },
    {
      kind: 'choice',
      name: 'kind',
      label: 'What the number is',
      value: own?.kind ?? 'other',
      options: [
        { value: 'other', label: 'an account number' },
        { value: 'iban', label: 'an IBAN' },
      ],
    },
    // Typed anew each time: half a changed number would be somebody else's account.
    { kind: 'text', name: 'number', label: 'The number' },
    {
      kind: 'row',
      fields: [
        {
          kind: 'list',
          name: 'bank_kind',
          label: 'Its bank, by',
          value: own ? (own.bankKind ?? '') : 'aba',
          options: [
            { value: 'aba', label: 'routing number' },
            { value: 'bic', label: 'BIC' },
            { value: '', label: 'nothing: the IBAN says it' },
          ],
        },
        { kind: 'text', name: 'bank', label: 'Code of the bank', value: own?.bank ?? '' },
      ],
    },
  ];
}

function Partner({
  partner: { partner, isPaidByUs, account },
  today,
}: {
  readonly partner: PartnerAccount;
  readonly today: string;
}) {
  return (
    <li className="payment">
      <h3>{partner}</h3>
      {account ? (
        <AccountFacts account={account} today={today} />
      ) : (
        <p>No account is given.{isPaidByUs ? ' Pay by check.' : ''}</p>
      )}
    </li>
  );
}
