/**
 * The plain sentences of a statement: who owes whom how much, how much of it is overdue, due, held, and what is delivered
 * and on no invoice yet.
 */
import type { Ageing, NotInvoiced, Statement } from '../../domain/money/statement.ts';
import { lessThat, signOf, sumOf } from '../amount-strings.ts';
import type { Figures } from '../figures.ts';
import { moneyText } from './statement-setting.ts';

type Told = { readonly statement: Statement; readonly figures: Figures };

/** "Tarn Hollow Dairy owes you, Quillback Acres, USD 1,986.85 at the end of 2026-10-31." */
export function balanceSentence(told: Told): string {
  const { of: reader, with: other, closing, to } = told.statement;
  const amount = moneyText(closing, told);
  switch (signOf(closing)) {
    case 1:
      return `${other} owes you, ${reader}, ${amount} at the end of ${to}.`;
    case -1:
      return `You, ${reader}, owe ${other} ${amount} at the end of ${to}.`;
    case 0:
      return `You, ${reader}, and ${other} owe each other nothing at the end of ${to}.`;
  }
}

/** Above the figure at the top, short whatever the names are. */
export function balanceLabel({ closing }: Statement): string {
  const sign = signOf(closing);
  if (sign === 0) return 'Nothing is owed';
  return sign > 0 ? 'Owed to you' : 'You owe';
}

type Part = { readonly amount: string; readonly state: string };

/** The parts of what is owed, each with how it stands; those that come to nothing are left out. */
export function balanceParts({ ageing, open, to }: Statement): Part[] {
  const { days1to30, days31to60, days61to90, over90 } = ageing;
  // What falls due on the last day is not late, but whoever reads this has to pay it now.
  const dueNow = open.filter((item) => item.kind !== null && item.dueOn === to && item.daysLate === 0);
  const due = sumOf(dueNow.map((item) => lessThat(item.open, item.held)));
  return [
    { amount: sumOf([days1to30, days31to60, days61to90, over90]), state: 'overdue' },
    { amount: due, state: `due on ${to}` },
    { amount: lessThat(ageing.notDue, due), state: 'not due yet' },
    { amount: ageing.held, state: 'held while it is questioned' },
  ].filter(({ amount }) => signOf(amount) !== 0);
}

function listed(parts: readonly Part[], told: Told): string {
  const texts = parts.map(({ amount, state }) => `${moneyText(amount, told)} ${state}`);
  return texts.length < 2 ? texts.join('') : `${texts.slice(0, -1).join(', ')} and ${texts.at(-1)}`;
}

function onAccountSentence(told: Told): string[] {
  const { ageing, with: other } = told.statement;
  const sign = signOf(ageing.onAccount);
  if (sign === 0) return [];
  const by = sign > 0 ? 'you' : other;
  return [`On account, not used yet: ${moneyText(ageing.onAccount, told)} paid by ${by}.`];
}

/** "Owed to you: USD 900.00 overdue and USD 50.00 not due yet. You owe: USD 20.00 …"; empty where nothing is open. */
export function partsSentence(told: Told): string {
  const parts = balanceParts(told.statement);
  const toReader = parts.filter(({ amount }) => signOf(amount) > 0);
  const fromReader = parts.filter(({ amount }) => signOf(amount) < 0);
  return [
    ...(toReader.length === 0 ? [] : [`Owed to you: ${listed(toReader, told)}.`]),
    ...(fromReader.length === 0 ? [] : [`You owe: ${listed(fromReader, told)}.`]),
    ...onAccountSentence(told),
  ].join(' ');
}

/** The ages of what is open, as they are called; what is held and what is on account among them. */
export const AGES: readonly (readonly [keyof Ageing, string])[] = [
  ['notDue', 'Not late'],
  ['days1to30', '1 to 30 days late'],
  ['days31to60', '31 to 60 days late'],
  ['days61to90', '61 to 90 days late'],
  ['over90', 'More than 90 days late'],
  ['held', 'Held while it is questioned'],
  ['onAccount', 'Paid on account, to be set against the rest'],
];

function loadsText(count: number): string {
  return count === 1 ? '1\u00a0load' : `${count}\u00a0loads`;
}

/** The words that the table of entries has over its columns. */
function wayOf(amount: string): string {
  return signOf(amount) < 0 ? 'in their favour' : 'in your favour';
}

/** One agreement's deliveries in sentences; the parts that come to nothing are left out. */
export function notInvoicedSentence(part: NotInvoiced, told: Told): string {
  const { settledLoads, unpricedLoads, valuedLoads } = part;
  const money = (amount: string) => moneyText(amount, told);
  const settled = `${loadsText(settledLoads)} ${settledLoads === 1 ? 'is' : 'are'} settled and on no invoice yet: ${money(part.settled)} ${wayOf(part.settled)}, once invoiced.`;
  const unpriced = `${loadsText(unpricedLoads)} ${unpricedLoads === 1 ? 'is' : 'are'} without a result or a price yet.`;
  const which = valuedLoads === unpricedLoads ? (valuedLoads === 1 ? 'It is' : 'They are') : undefined;
  const some = `${valuedLoads} of them ${valuedLoads === 1 ? 'is' : 'are'}`;
  const valued =
    valuedLoads === 0
      ? 'Nothing can be said of their value yet.'
      : `${which ?? some} thought to come to about ${money(part.provisional)} ${wayOf(part.provisional)}: this is an estimate, and not owed.`;
  const advances = `Advances of ${money(part.advances)} are invoiced already for loads that are not settled; they are in the balance above.`;
  return [
    `Agreement ${part.agreement}:`,
    ...(settledLoads === 0 ? [] : [settled]),
    ...(unpricedLoads === 0 ? [] : [unpriced, valued]),
    ...(signOf(part.advances) === 0 ? [] : [advances]),
  ].join(' ');
}

/** Whether anything is delivered and on no invoice. */
export function saysSomething({ settledLoads, unpricedLoads, advances }: NotInvoiced): boolean {
  return settledLoads > 0 || unpricedLoads > 0 || signOf(advances) !== 0;
}
