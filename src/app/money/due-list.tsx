/**
 * Open documents by due date, the late ones first: what the reader owes and what it is owed in tables of their own.
 */
import { dayInWords } from '../../domain/dates/day-words.ts';
import type { DueItem } from '../../usecases/money/read-money.ts';
import { isSomething } from './standing-words.ts';

export interface DueListProps {
  readonly items: readonly DueItem[];
  readonly today: string;
}

export function DueList({ items, today }: DueListProps) {
  return (
    <section aria-labelledby="by-due-date">
      <h2 id="by-due-date">By due date</h2>
      {items.length === 0 ? <p>No invoice is open, so there is nothing to pay or to wait for.</p> : null}
      {groupsOf(items).map((group) => (
        <DueGroup key={titleOf(group)} group={group} today={today} />
      ))}
    </section>
  );
}

/** What the reader owes first; in each, by partner and currency. */
function groupsOf(items: readonly DueItem[]): readonly (readonly DueItem[])[] {
  const groups = new Map<string, DueItem[]>();
  const ordered = [
    ...items.filter(({ isOwedToYou }) => !isOwedToYou),
    ...items.filter(({ isOwedToYou }) => isOwedToYou),
  ];
  for (const item of ordered) {
    const key = `${item.isOwedToYou} ${item.currency} ${item.partner}`;
    groups.set(key, [...(groups.get(key) ?? []), item]);
  }
  return [...groups.values()];
}

function titleOf([first]: readonly DueItem[]): string {
  if (!first) return '';
  return first.isOwedToYou ? `${first.partner} owes you` : `You owe ${first.partner}`;
}

function DueGroup({ group, today }: { readonly group: readonly DueItem[]; readonly today: string }) {
  const isOneOfMany = new Set(group.map(({ agreement }) => agreement)).size > 1;
  return (
    <table className="money-table due-table">
      <caption>{titleOf(group)}</caption>
      <thead>
        <tr>
          <th scope="col">Document</th>
          <th scope="col">Due</th>
          <th scope="col" className="amount">
            To pay, {group[0]?.currency}
          </th>
        </tr>
      </thead>
      <tbody>
        {group.map((item) => (
          <tr key={item.documentId}>
            <th scope="row">
              <a href={`/money/documents/${item.documentId}`}>{item.name}</a>
              {isOneOfMany ? <span className="under">agreement {item.agreement}</span> : null}
            </th>
            <td className="day">
              {dayInWords(item.dueOn, today)}
              <Lateness item={item} />
            </td>
            <td className="amount">
              {isSomething(item.due) ? item.due : 'nothing now'}
              {item.held === '' ? null : <span className="under">{item.held} held</span>}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What is held alone is not late: nobody has to pay it. */
function Lateness({ item: { daysLate, due } }: { readonly item: DueItem }) {
  if (daysLate === 0 || !isSomething(due)) return null;
  return <strong className="under late">{daysLate === 1 ? 'one day late' : `${daysLate} days late`}</strong>;
}
