/**
 * What became of a payment, and how money is used, in sentences that say who did it.
 */
import { dayInWords } from '../../../domain/dates/day-words.ts';
import type {
  AgreementPayments,
  PaymentView,
  SetOffView,
  WantedSpread,
} from '../../../usecases/money/read-payments.ts';

export interface WordsOf {
  readonly money: Pick<AgreementPayments, 'partner' | 'currency' | 'today' | 'seller'>;
  readonly show: (amount: string) => string;
}

/** "You paid Quillback Acres on 25 November: Check 1043"; the amount stands beside it. */
export function paymentWords(
  { paidOn, name, isPaidByUs }: PaymentView,
  { money: { partner, today } }: WordsOf,
): string {
  const who = isPaidByUs ? `You paid ${partner}` : `${partner} paid you`;
  return `${who} on ${dayInWords(paidOn, today)}: ${name}`;
}

/** What became of it. */
export function stateSentence(payment: PaymentView, { money: { partner, today } }: WordsOf): string {
  const { isPaidByUs, isRecordedByUs, state, reason, returnedOn } = payment;
  const payee = isPaidByUs ? partner : 'Your side';
  switch (state) {
    case 'recorded':
      return isPaidByUs
        ? `It waits for ${partner} to confirm that it came. Until then it counts for nothing.`
        : 'It waits for your answer. Until then it counts for nothing.';
    case 'confirmed':
      return isPaidByUs === isRecordedByUs
        ? `${payee} confirmed that it came.`
        : `${payee} recorded that it came.`;
    case 'contested':
      return `${payee} contested it: “${reason ?? ''}”. It counts for nothing.`;
    case 'withdrawn':
      return `${isRecordedByUs ? 'Your side' : partner} took the record of it back. It counts for nothing.`;
    case 'returned':
      return `The bank gave it back on ${dayInWords(returnedOn ?? today, today)}: “${reason ?? ''}”. It counts for nothing any more, and what it had paid is open again.`;
  }
}

/** How whoever recorded it wants it used. */
export function spreadSentence({ kind, parts }: WantedSpread, { money, show }: WordsOf): string {
  switch (kind) {
    case 'oldest-first':
      return 'It pays the oldest first.';
    case 'in-proportion':
      return 'It pays a share of each document that is due.';
    case 'as-said':
      return `It is meant for ${parts.map(({ name, amount }) => `${name} (${show(amount)} ${money.currency})`).join(', ')}.`;
  }
}

export function setOffSentence(
  { amount, isOurs, reason, state, answerReason }: SetOffView,
  { money: { partner, currency }, show }: WordsOf,
): string {
  const [who, other] = isOurs ? ['Your side', partner] : [partner, 'Your side'];
  const verb = state === 'open' ? 'proposes' : 'proposed';
  const proposed = `${who} ${verb} to use ${show(amount)} ${currency} of the money on account for open documents: “${reason}”.`;
  switch (state) {
    case 'open':
      return `${proposed} ${isOurs ? `${partner} has yet to answer.` : 'It waits for your answer.'}`;
    case 'confirmed':
      return `${proposed} ${other} agreed.`;
    case 'refused':
      return `${proposed} ${other} refused: “${answerReason ?? ''}”.`;
    case 'withdrawn':
      return `${proposed} ${who} took that back.`;
  }
}
