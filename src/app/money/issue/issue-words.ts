/**
 * What can be issued, in words.
 */
import type { IssueView, ReadyPeriod } from '../../../usecases/money/read-issue.ts';

/** Which loads share an invoice, as it was agreed. */
export function agreedWords({ invoicedBy, issuer, isIssuer, partner }: IssueView): string {
  const who = isIssuer ? 'You issue' : `${issuer} issues`;
  switch (invoicedBy) {
    case null:
      return `Nothing is agreed about which loads share an invoice, so all that have settled go on one at once. ${who} the invoices. To agree on a week or a month, propose a change of the agreement to ${partner}.`;
    case 'load':
      return `${who} an invoice for each load once it has settled, as agreed.`;
    case 'day':
      return `${who} an invoice for each day of deliveries, as agreed.`;
    case 'week':
      return `${who} an invoice for each week of deliveries, Monday to Sunday, as agreed.`;
    case 'month':
      return `${who} an invoice for each month of deliveries, as agreed.`;
    case 'season':
      return `${who} one invoice for the season, as agreed. Nobody but you two can say when it is over.`;
  }
}

/** "3 loads", "one load". */
export function loadsWords(count: number): string {
  return count === 1 ? 'one load' : `${count} loads`;
}

export function daysWords({ from, to }: Pick<ReadyPeriod, 'from' | 'to'>): string {
  return from === to ? from : `${from} to ${to}`;
}

/** A few tickets by name: "T1, T2, T3 and 9 more". */
export function ticketsWords(tickets: readonly string[]): string {
  const most = 8;
  const shown = tickets.slice(0, most).join(', ');
  return tickets.length > most ? `${shown} and ${tickets.length - most} more` : shown;
}

/** What issuing everything means where a period is still running. */
export function openPeriodWords({ invoicedBy }: IssueView): string {
  switch (invoicedBy) {
    case 'season':
      return 'By issuing now you say that the season is over. A load that comes or settles later goes on an invoice of its own.';
    default:
      return 'The period of these loads is not over. Issued now, a load of the same days that settles later goes on an invoice of its own.';
  }
}
