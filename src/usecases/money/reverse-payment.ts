/**
 * A confirmed payment that the bank gave back: what it settled is open again, and the agreed fee is charged.
 */
import { parseLocalDate } from '../../domain/dates/local-date.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import { roundToUnits } from '../../domain/numbers/rounding.ts';
import { reversedPostings } from '../../journal/accounts.ts';
import type { PaymentReversalFact } from '../../journal/money-facts.ts';
import { paymentPostings } from '../../journal/money-postings.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertPaymentReversal, type PaymentRow } from '../../store/rows/money/payment-rows.ts';
import { type Context, permit } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { openPayment } from './answer-payment.ts';
import { type MoneyFrame, refreshed } from './money-frame.ts';
import { allocatedOf, signedAmount } from './money-rows.ts';
import { paymentName } from './payment-name.ts';
import { writeDocuments } from './write-documents.ts';

export interface PaymentToReverse {
  readonly paymentId: string;
  /** The day on which the bank gave it back, `YYYY-MM-DD`. */
  readonly reversedOn: string;
  readonly reason: string;
  readonly key?: string;
}

/**
 * Returns the fee's number where one was charged. Refuses `not-allowed`, `not-found`, `not-yours` for whoever paid,
 * `bad-input`, `not-ready` for a payment that never counted, and `ended-already` for one that was given back already.
 */
export async function reversePayment(
  context: Context,
  { paymentId, reversedOn, reason, key }: PaymentToReverse,
): Promise<{ readonly fee: string | null }> {
  permit(context, 'record-payment');
  const asked = { verb: 'reverse-payment', subject: paymentId, key, input: { reversedOn, reason } };
  return await doOnce(context, asked, async (tx) => {
    const { frame, payment } = await openPayment(tx, context, paymentId);
    if (payment.fact.payer === context.caller.partyId) {
      throw new Refusal('not-yours', 'Whoever was to get the money says that the bank gave it back.');
    }
    const answer = frame.rows.answers.find(({ fact }) => fact.payment === paymentId);
    if (answer?.fact.answer !== 'confirmed') {
      throw new Refusal(
        'not-ready',
        'This payment has not been confirmed, so there is nothing to take back.',
      );
    }
    if (frame.rows.reversals.some(({ fact }) => fact.payment === paymentId)) {
      throw new Refusal('ended-already', 'The bank gave this payment back already.');
    }
    const fact: PaymentReversalFact = {
      payment: paymentId,
      reversedOn: readDay(frame, payment, reversedOn),
      reason: readReason(reason),
      party: context.caller.partyId,
    };
    const id = context.newId();
    await insertPaymentReversal(tx, { id, fact }, frame.recorded);
    const paid = {
      amount: signedAmount(payment, frame),
      allocated: allocatedOf(answer.fact.allocated, frame.money),
    };
    const postings = reversedPostings(paymentPostings(paid, frame.money));
    await enterFacts(tx, [{ kind: 'payment-reversal', fact, subjectId: id, postings }], frame.recorded);
    const fee = await chargeFee(tx, context, { frame: await refreshed(tx, frame), payment });
    await tellPartner(tx, context, { found: frame.found, kind: 'payment-returned' });
    return { fee };
  });
}

function readDay({ today }: MoneyFrame, { fact }: PaymentRow, text: string): string {
  const day = parseLocalDate(text.trim());
  if (!day || day < fact.paidOn || day > today) {
    const message = `must be a day from ${fact.paidOn}, when it was paid, to today, ${today}`;
    throw badInput([{ column: 'reversed_on', message }]);
  }
  return day;
}

/** The agreed fee, as a document of its own. */
async function chargeFee(
  tx: Transaction,
  context: Context,
  { frame, payment }: { readonly frame: MoneyFrame; readonly payment: PaymentRow },
): Promise<string | null> {
  const fee = frame.conditions.payment?.returnedPaymentFee;
  if (fee === undefined || payment.fact.payer !== frame.buyerId) return null;
  const amount = roundToUnits(decimal(fee), frame.money.decimals, frame.money.rounding);
  const name = paymentName(payment.fact);
  const line = {
    load: null,
    label: 'Fee for a payment that the bank gave back',
    quantity: '1',
    unit: 'fee',
    rate: frame.print(amount),
    amount: frame.print(amount),
    how: `agreed for each such payment; ${name} of ${payment.fact.amount}, paid ${payment.fact.paidOn}`,
  };
  const [written] = await writeDocuments(tx, context, {
    frame,
    drafts: [
      {
        kind: 'fee',
        dueOn: frame.today,
        period: null,
        named: [],
        correctsId: null,
        reason: `${name}, paid ${payment.fact.paidOn}, came back from the bank.`,
        lines: [line],
        deductions: [],
        advances: [],
        loads: [],
        payable: amount,
      },
    ],
  });
  return written?.number ?? null;
}
