/**
 * How the reader stands with each partner, and the way to its papers.
 */
import { mayDo, type Role } from '../../domain/parties/permissions.ts';
import type { PartnerStanding } from '../../usecases/money/read-money.ts';
import { addressOf } from '../place/asked.ts';
import { balanceWords, notInvoicedWords, partsWords, unansweredWords } from './standing-words.ts';

export interface PartnerListProps {
  readonly partners: readonly PartnerStanding[];
  readonly role: Role;
}

export function PartnerList({ partners, role }: PartnerListProps) {
  return (
    <section aria-labelledby="who-owes">
      <h2 id="who-owes">Who owes whom</h2>
      {partners.map((standing) => (
        <PartnerItem key={`${standing.partnerId} ${standing.currency}`} standing={standing} role={role} />
      ))}
    </section>
  );
}

function PartnerItem({ standing, role }: { readonly standing: PartnerStanding; readonly role: Role }) {
  const { partner, partnerId, agreements } = standing;
  const [only] = agreements;
  const about = agreements.length === 1 && only ? only.id : undefined;
  const pending = notInvoicedWords(standing);
  return (
    <div className="partner">
      <h3>{partner}</h3>
      <p className="standing">{balanceWords(standing)}</p>
      {[partsWords(standing).join(' '), ...unansweredWords(standing), ...pending]
        .filter((words) => words !== '')
        .map((words) => (
          <p key={words}>{words}</p>
        ))}
      <ul className="pick">
        <Step
          to={addressOf('/money/statement', { partner: partnerId, agreement: about })}
          label="Statement"
        />
        {agreements.flatMap(({ id, number, isIssuer, isSealed }) => {
          const of = agreements.length === 1 ? '' : ` of ${number}`;
          return [
            <Step
              key={`documents ${id}`}
              to={`/money/documents?agreement=${id}`}
              label={`Invoices and notes${of}`}
            />,
            <Step key={`payments ${id}`} to={`/money/payments?agreement=${id}`} label={`Payments${of}`} />,
            isIssuer && !isSealed && mayDo(role, 'issue-invoice') ? (
              <Step key={`issue ${id}`} to={`/money/issue?agreement=${id}`} label={`Issue${of}`} />
            ) : null,
          ];
        })}
      </ul>
    </div>
  );
}

function Step({ to, label }: { readonly to: string; readonly label: string }) {
  return (
    <li>
      <a className="plain-link" href={to}>
        {label}
      </a>
    </li>
  );
}
