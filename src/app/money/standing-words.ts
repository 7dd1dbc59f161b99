/**
 * Who owes whom how much, in sentences; every amount without a sign, its way in words.
 */
import type { PartnerStanding } from '../../usecases/money/read-money.ts';

/** "Tarn Hollow Dairy owes you 241,310.52 USD on what is invoiced." */
export function balanceWords(standing: PartnerStanding): string {
  const { partner, direction, balance, currency, agreements } = standing;
  const [only] = agreements;
  if (agreements.length === 1 && only && only.carriedInto !== null) {
    return `You and ${partner} owe each other nothing under it any more: its season is sealed, and its balance was carried over to agreement ${only.carriedInto}.`;
  }
  switch (direction) {
    case 'they-owe':
      return `${partner} owes you ${balance} ${currency} on what is invoiced.`;
    case 'you-owe':
      return `You owe ${partner} ${balance} ${currency} on what is invoiced.`;
    case 'even':
      return `You and ${partner} owe each other nothing on what is invoiced.`;
  }
}

/** How much of it is late, due today, not due yet, held, and on account. */
export function partsWords(standing: PartnerStanding): readonly string[] {
  const { overdue, dueToday, notDue, held, onAccount, currency } = standing;
  const parts = [
    { amount: overdue, state: 'past its due date' },
    { amount: dueToday, state: 'due today' },
    { amount: notDue, state: 'not due yet' },
    { amount: held, state: 'held while it is questioned' },
  ].filter(({ amount }) => isSomething(amount));
  const along = parts.filter(({ amount }) => !isBack(amount));
  const against = parts.filter(({ amount }) => isBack(amount));
  const isWhole = against.length === 0 && !isSomething(onAccount);
  const [only] = along;
  return [
    ...(along.length === 1 && isWhole && only ? [`All of it is ${only.state}.`] : []),
    ...(along.length > 1 || (along.length === 1 && !isWhole)
      ? [`${isWhole ? 'Of it' : 'Open on documents are'} ${listed(along, { currency, isWhole })}.`]
      : []),
    ...(against.length === 0
      ? []
      : [`Open the other way are ${listed(against, { currency, isWhole: false })}.`]),
    ...(isSomething(onAccount) ? [onAccountWords(standing)] : []),
  ];
}

/** Payments that count in nothing yet, so that nobody wonders where they are. */
export function unansweredWords(standing: PartnerStanding): readonly string[] {
  const { unansweredByYou, unansweredByThem, partner, currency } = standing;
  return [
    ...(isSomething(unansweredByYou)
      ? [
          `${unansweredByYou} ${currency} that you paid is not counted here until ${partner} confirms that it came.`,
        ]
      : []),
    ...(isSomething(unansweredByThem)
      ? [
          `${unansweredByThem} ${currency} that ${partner} paid is not counted here until you confirm that it came.`,
        ]
      : []),
  ];
}

function listed(
  parts: readonly { readonly amount: string; readonly state: string }[],
  { currency, isWhole }: { readonly currency: string; readonly isWhole: boolean },
): string {
  const texts = parts.map(
    ({ amount, state }) => `${size(amount)} ${currency}${isWhole ? ' is ' : ' '}${state}`,
  );
  return texts.length < 2 ? texts.join('') : `${texts.slice(0, -1).join(', ')} and ${texts.at(-1)}`;
}

function onAccountWords({ onAccount, onAccountBy, partner, currency }: PartnerStanding): string {
  const who = onAccountBy === 'you' ? 'You have' : `${partner} has`;
  return `${who} ${onAccount} ${currency} on account: paid or credited, used for no document yet, and counted off above.`;
}

/** What is delivered and on no invoice yet. */
export function notInvoicedWords(standing: PartnerStanding): readonly string[] {
  const { settledLoads, settled, settledFor, unpricedLoads, advances, currency } = standing;
  return [
    ...(settledLoads === 0
      ? []
      : [
          `${counted(settledLoads)} ${settledLoads === 1 ? 'has' : 'have'} settled and ${settledLoads === 1 ? 'is' : 'are'} on no invoice yet: ${settled} ${currency} more ${forWhom(settledFor)}, once invoiced.`,
        ]),
    ...(unpricedLoads === 0 ? [] : [unpricedWords(standing)]),
    ...(isSomething(advances)
      ? [`Advances of ${advances} ${currency} for such loads are invoiced already and are taken off then.`]
      : []),
  ];
}

function unpricedWords(standing: PartnerStanding): string {
  const { unpricedLoads, valuedLoads, provisional, provisionalFor, currency } = standing;
  const waits = `${counted(unpricedLoads)} ${unpricedLoads === 1 ? 'waits' : 'wait'} for a result or a price.`;
  if (valuedLoads === 0) return `${waits} Nothing can be said of their value yet.`;
  const which =
    valuedLoads === unpricedLoads
      ? valuedLoads === 1
        ? 'It is'
        : 'They are'
      : `${valuedLoads} of them ${valuedLoads === 1 ? 'is' : 'are'}`;
  return `${waits} ${which} thought to come to about ${provisional} ${currency} ${forWhom(provisionalFor)}: an estimate, and not owed.`;
}

function forWhom(who: 'you' | 'them'): string {
  return who === 'you' ? 'owed to you' : 'for you to pay';
}

function counted(loads: number): string {
  return loads === 1 ? 'One load' : `${loads} loads`;
}

/** "0.00", "0" and "0,00" come to nothing. */
export function isSomething(amount: string): boolean {
  return /[1-9]/.test(amount);
}

function isBack(amount: string): boolean {
  return amount.startsWith('−') || amount.startsWith('-');
}

function size(amount: string): string {
  return amount.replace(/^[−-]/, '');
}
