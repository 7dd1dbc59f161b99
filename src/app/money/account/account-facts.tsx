/**
 * One account: whose, which number, at which bank, and since when.
 */
import { dayInWords } from '../../../domain/dates/day-words.ts';
import type { AccountView } from '../../../usecases/money/read-accounts.ts';

export interface AccountFactsProps {
  readonly account: AccountView;
  /** `YYYY-MM-DD`. */
  readonly today: string;
}

export function AccountFacts({ account, today }: AccountFactsProps) {
  const { holder, kind, number, isMasked, bankKind, bank, version, recordedAt } = account;
  const since = dayInWords(recordedAt.slice(0, 10), today);
  return (
    <>
      <p>
        <strong>{version === 1 ? `Given on ${since}.` : `Changed on ${since}.`}</strong>
      </p>
      <dl className="facts">
        <div>
          <dt>Account holder</dt>
          <dd>{holder}</dd>
        </div>
        <div>
          <dt>
            {kind === 'iban' ? 'IBAN' : 'Account number'}
            {isMasked ? ', its end' : ''}
          </dt>
          <dd className="account-number">{!isMasked && kind === 'iban' ? inFours(number) : number}</dd>
        </div>
        {bankKind === null ? null : (
          <div>
            <dt>{bankKind === 'aba' ? 'Routing number' : 'BIC'}</dt>
            <dd className="account-number">{bank}</dd>
          </div>
        )}
      </dl>
    </>
  );
}

/** As banks print it, so that it can be compared. */
function inFours(iban: string): string {
  return iban.replace(/(.{4})(?=.)/g, '$1 ');
}
