/**
 * What the matching of two lists of payments found, in sentences.
 */
import { dayInWords } from '../dates/day-words.ts';
import type { PaymentOutcome, PaymentPair } from '../matching/payments/match-payments.ts';
import type { PaymentDifference } from '../matching/payments/payment-differences.ts';
import type { PaymentListRow } from '../matching/payments/payment-list-row.ts';
import { countOfDays, isBelowZero, unsigned } from './figures-in-words.ts';
import { causesInWords, type ListNames, opened, shown } from './matching-words.ts';

/** A payment by what it is called and its amount: "check 1043, 1,250.00". */
export function paymentInWords(
  { method, reference, amount }: PaymentListRow,
  show: (amount: string) => string = (text) => text,
): string {
  const name = method === null || method === 'other' ? 'payment' : method === 'cash' ? 'cash' : method;
  return `${reference === null ? name : `${name} ${reference}`}, ${show(unsigned(amount))}`;
}

/** "received" or "paid back": which way an amount of a list goes, for the side whose list it is. */
export function directionInWords(amount: string, side: 'seller' | 'buyer'): string {
  if (isBelowZero(amount)) return side === 'seller' ? 'paid back' : 'received back';
  return side === 'seller' ? 'received' : 'paid';
}

export interface PaymentNames extends ListNames {
  /** Whose list it is. */
  readonly side: 'seller' | 'buyer';
  /** Whose the other list is; the record says everything as seen from `side`. */
  readonly otherSide?: 'seller' | 'buyer';
}

/** How a row ends, a sentence or a few for each respect in which its pair differs. */
export function paymentOutcomeInWords(outcome: PaymentOutcome, names: PaymentNames): readonly string[] {
  switch (outcome.kind) {
    case 'only': {
      const list = names[outcome.in];
      if (outcome.isUndecided)
        return [
          `Too many payments are alike here to tell them apart, so this one of ${list} was not matched.`,
        ];
      if (outcome.isWithin === null) return [`This payment is only in ${list}.`];
      const other = outcome.in === 'mine' ? 'record' : 'mine';
      return [
        `This payment is only in ${list}. Most likely it is within the sum of ${names.load(other, outcome.isWithin)}.`,
      ];
    }
    case 'twice':
      return [`This payment stands twice in ${names[outcome.in]}: ${names.load(outcome.in, outcome.of)}.`];
    case 'pair':
      if (outcome.differences.length === 0) return ['Agrees.'];
      return outcome.differences.map((difference) => differenceInWords(difference, outcome, names));
  }
}

function differenceInWords(difference: PaymentDifference, pair: PaymentPair, names: PaymentNames): string {
  const { mine, record } = pair;
  const both = (own: string, recorded: string) =>
    `${opened(names.mine)} has ${own}, ${names.record} ${recorded}`;
  const telling = { aspect: difference.aspect, pair: { record: { deliveredOn: record.paidOn } }, names };
  if (difference.aspect === 'date') {
    const days = countOfDays(String(Math.abs(difference.byDays)));
    const said = `${both(dayInWords(mine.paidOn, record.paidOn), dayInWords(record.paidOn, mine.paidOn))}: ${days} ${difference.byDays < 0 ? 'earlier' : 'later'}.`;
    // Days on which a payment is booked differ without anybody's slip.
    return difference.causes.length === 0 ? said : `${said} ${causesInWords(difference.causes, telling)}`;
  }
  const money = (amount: string) => `${shown(unsigned(amount), names)} ${names.currency}`;
  const directed = (amount: string, side: PaymentNames['side']) =>
    `${money(amount)} ${directionInWords(amount, side)}`;
  const isTurned = isBelowZero(mine.amount) !== isBelowZero(record.amount);
  const isLess = isBelowZero(difference.by) !== isBelowZero(record.amount);
  const said = isTurned
    ? `${both(directed(mine.amount, names.side), directed(record.amount, names.otherSide ?? names.side))}: ${money(difference.by)} apart.`
    : `${both(money(mine.amount), money(record.amount))}: ${money(difference.by)} ${isLess ? 'less' : 'more'}.`;
  return `${said} ${causesInWords(difference.causes, telling)}`;
}
