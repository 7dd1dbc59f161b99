/**
 * What becomes of a payment that one side recorded: the payee confirms it, and only then it counts, or contests it;
 * whoever recorded it may take it back until then.
 */

import type { LocalDate } from '../../domain/dates/local-date.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { spreadOver } from '../../domain/money/spread.ts';
import type { Posting } from '../../journal/accounts.ts';
import type { PaymentAnswerFact } from '../../journal/money-facts.ts';
import { paymentPostings } from '../../journal/money-postings.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertPaymentAnswer, type PaymentRow } from '../../store/rows/money/payment-rows.ts';
import { findAgreementOf } from '../../store/rows/money/row-stamp.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { Refusal } from '../refusal.ts';
import { type MoneyFrame, moneyFrame } from './money-frame.ts';
import { allocationFacts, signedAmount } from './money-rows.ts';
import { storedSpread } from './spread-wanted.ts';

export type PaymentEnd = 'confirmed' | 'contested' | 'withdrawn';

export interface PaymentToAnswer {
  readonly paymentId: string;
  readonly answer: PaymentEnd;
  /** Why it is contested. */
  readonly reason?: string;
  readonly key?: string;
}

/**
 * Refuses `not-allowed`, `not-found`, `not-yours` for the wrong side, `ended-already` where it was answered already,
 * `bad-input` for a contest without a reason, and `not-ready` for money back that is no longer on account.
 */
export async function answerPayment(
  context: Context,
  { paymentId, answer, reason = '', key }: PaymentToAnswer,
): Promise<{ readonly answered: PaymentEnd }> {
  permit(context, 'record-payment');
  const asked = { verb: 'answer-payment', subject: paymentId, key, input: { answer, reason } };
  return await doOnce(context, asked, async (tx) => {
    const { frame, payment } = await openPayment(tx, context, paymentId);
    if (frame.rows.answers.some(({ fact }) => fact.payment === paymentId)) {
      throw new Refusal('ended-already', 'This payment was answered already.');
    }
    refuseWrongSide(context, payment, answer);
    if (answer === 'confirmed') {
      await confirmPayment(tx, context, { frame, payment });
    } else {
      const why = answer === 'contested' ? readReason(reason) : null;
      await enterAnswer(tx, context, { frame, payment, answer, why, allocated: [], postings: [] });
    }
    await tellPartner(tx, context, { found: frame.found, kind: 'payment-answered' });
    return { answered: answer };
  });
}

/** A payment with the money of its agreement, locked. Refuses `not-found`, `not-yours`. */
export async function openPayment(
  tx: Transaction,
  context: Context,
  paymentId: string,
): Promise<{ readonly frame: MoneyFrame; readonly payment: PaymentRow }> {
  const agreementId = isId(paymentId) ? await findAgreementOf(tx, 'payment', paymentId) : undefined;
  if (agreementId === undefined) throw new Refusal('not-found', 'There is no such payment.');
  const frame = await moneyFrame(tx, context, agreementId);
  const payment = frame.rows.payments.find(({ id }) => id === paymentId);
  if (!payment) throw new Refusal('not-found', 'There is no such payment.');
  return { frame, payment };
}

function refuseWrongSide({ caller }: Context, { fact }: PaymentRow, answer: PaymentEnd): void {
  if (answer === 'withdrawn') {
    if (fact.party === caller.partyId) return;
    throw new Refusal('not-yours', 'Only the side that recorded a payment takes it back.');
  }
  if (fact.payer !== caller.partyId) return;
  throw new Refusal(
    'not-yours',
    'Your side paid this; the other side confirms that it came, or contests it.',
  );
}

/** Counts a payment: spreads it by how things stand now. The agreement must be locked. */
export async function confirmPayment(
  tx: Transaction,
  context: Context,
  { frame, payment }: { readonly frame: MoneyFrame; readonly payment: PaymentRow },
): Promise<void> {
  const { money, standing, conditions, print } = frame;
  const amount = signedAmount(payment, frame);
  if (amount < 0n && -amount > standing.onAccount) {
    throw new Refusal(
      'not-ready',
      `Only ${print(standing.onAccount)} is on account still, so ${payment.fact.amount} cannot be paid back from it.`,
    );
  }
  const allocated =
    amount < 0n
      ? []
      : spreadOver(standing.documents, storedSpread(payment.fact.spread, frame), {
          amount: minorUnits(payment.fact.amount, money),
          paidOn: payment.fact.paidOn as LocalDate,
          discount: conditions.payment?.discount,
          money,
        });
  await enterAnswer(tx, context, {
    frame,
    payment,
    answer: 'confirmed',
    why: null,
    allocated: allocationFacts(allocated, print),
    postings: paymentPostings({ amount, allocated }, money),
  });
}

interface AnswerToEnter {
  readonly frame: MoneyFrame;
  readonly payment: PaymentRow;
  readonly answer: PaymentEnd;
  readonly why: string | null;
  readonly allocated: PaymentAnswerFact['allocated'];
  readonly postings: readonly Posting[];
}

async function enterAnswer(tx: Transaction, context: Context, to: AnswerToEnter): Promise<void> {
  const { frame, payment, answer, why, allocated, postings } = to;
  const id = context.newId();
  const party = context.caller.partyId;
  const fact: PaymentAnswerFact = { payment: payment.id, answer, reason: why, party, allocated };
  await insertPaymentAnswer(tx, { id, fact }, frame.recorded);
  await enterFacts(tx, [{ kind: 'payment-answer', fact, subjectId: id, postings }], frame.recorded);
}
