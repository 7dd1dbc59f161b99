/**
 * One statement in one currency: who owes whom at its end, how that came about, and what stands beside it.
 */
import type { Figures } from '../../../documents/figures.ts';
import { moneyText } from '../../../documents/statement/statement-setting.ts';
import {
  balanceSentence,
  notInvoicedSentence,
  partsSentence,
  saysSomething,
} from '../../../documents/statement/statement-words.ts';
import type { Statement } from '../../../domain/money/statement.ts';
import type { StatementFileWanted } from '../../../usecases/money/print-money.ts';
import { statementAddress } from './statement-request.ts';
import { AgeingTable, EntriesTable, OpenTable } from './statement-tables.tsx';

export interface StatementViewProps {
  readonly statement: Statement;
  readonly figures: Figures;
  readonly wanted: StatementFileWanted;
  readonly isOneOfMany: boolean;
}

export function StatementView({ statement, figures, wanted, isOneOfMany }: StatementViewProps) {
  const { currency, from, to, agreements, liens } = statement;
  const told = { statement, figures };
  const parts = partsSentence(told);
  const pending = statement.notInvoiced.filter(saysSomething);
  const asFile = { ...wanted, currency: isOneOfMany ? currency : undefined };
  return (
    <section aria-labelledby={`statement-${currency}`}>
      <h2 id={`statement-${currency}`}>
        {from} to {to}
        {isOneOfMany ? `, in ${currency}` : ''}
      </h2>
      <p className="standing">{balanceSentence(told)}</p>
      {parts === '' ? null : <p>{parts}</p>}
      <p className="quiet-word">
        Both days are included. Agreement{agreements.length === 1 ? '' : 's'} {agreements.join(', ')}.
      </p>
      <ul className="pick">
        <li>
          <a className="plain-link" href={statementAddress('/money/statement/paper', asFile)}>
            Statement (PDF)
          </a>
        </li>
        <li>
          <a className="plain-link" href={statementAddress('/money/statement/csv', asFile)}>
            Statement (CSV)
          </a>
        </li>
      </ul>
      <EntriesTable {...told} />
      <AgeingTable {...told} />
      <OpenTable {...told} />
      <Held {...told} />
      {pending.length === 0 ? null : (
        <section aria-labelledby={`pending-${currency}`}>
          <h3 id={`pending-${currency}`}>Delivered, and on no invoice yet</h3>
          {pending.map((part) => (
            <p key={part.agreement}>{notInvoicedSentence(part, told)}</p>
          ))}
        </section>
      )}
      {liens.length === 0 ? null : (
        <section aria-labelledby={`liens-${currency}`}>
          <h3 id={`liens-${currency}`}>Liens</h3>
          {liens.map(({ agreement, lender, conditions }) => (
            <p key={`${agreement} ${lender}`}>
              Agreement {agreement}: a lien notice of {lender} is recorded
              {conditions === '' ? '.' : `. It says of payment: ${conditions}`}
            </p>
          ))}
        </section>
      )}
    </section>
  );
}

function Held({ statement, figures }: Pick<StatementViewProps, 'statement' | 'figures'>) {
  const { held, currency } = statement;
  if (held.length === 0) return null;
  return (
    <section aria-labelledby={`held-${currency}`}>
      <h3 id={`held-${currency}`}>Held while it is questioned</h3>
      <ul className="held-list">
        {held.map(({ document, ticket, amount, since, by, reason }) => (
          <li key={`${document} ${ticket} ${since} ${amount}`}>
            {by} holds <strong>{moneyText(amount, { statement, figures })}</strong> of {document}
            {ticket === null ? '' : `, load ${ticket},`} since {since}: “{reason}”
          </li>
        ))}
      </ul>
    </section>
  );
}
