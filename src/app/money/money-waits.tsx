/**
 * What waits for the reader about money, oldest first, each with the page on which it is done.
 */
import { mayDo, type Role, type Verb } from '../../domain/parties/permissions.ts';
import type { MoneyWait } from '../../usecases/money/money-waits.ts';

const STEPS: Readonly<Record<MoneyWait['kind'], { readonly label: string; readonly verb: Verb }>> = {
  payment: { label: 'Answer it', verb: 'record-payment' },
  'set-off': { label: 'Answer it', verb: 'record-payment' },
  issue: { label: 'Issue invoices', verb: 'issue-invoice' },
  advance: { label: 'Give advances', verb: 'issue-invoice' },
  'bring-forward': { label: 'Bring it forward', verb: 'issue-invoice' },
  pay: { label: 'Pay it', verb: 'record-payment' },
};

export function MoneyWaits({ waits, role }: { readonly waits: readonly MoneyWait[]; readonly role: Role }) {
  if (waits.length === 0) return <p>Nothing about money waits for you.</p>;
  return (
    <section aria-label="What waits for you">
      <ul className="waiting">
        {waits.map(({ kind, words, path }, index) => {
          const { label, verb } = STEPS[kind];
          return (
            <li key={words} className="yours">
              <p>{words}</p>
              {mayDo(role, verb) ? (
                <a className={index === 0 ? 'act-link' : 'plain-link'} href={path}>
                  {label}
                </a>
              ) : null}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
