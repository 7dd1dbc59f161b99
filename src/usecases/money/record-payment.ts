/**
 * Records a payment: whoever pays says so and the payee confirms it, or the payee says what it received, which counts at
 * once.
 */
import { PAYMENT_COLUMNS, type PaymentGiven, readPaymentRow } from '../../domain/money/payment-row.ts';
import type { PaymentFact } from '../../journal/money-facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertPayment } from '../../store/rows/money/payment-rows.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput, type InputRow, readInputRows } from '../read-input-rows.ts';
import { refuseUnusual } from '../refuse-unusual.ts';
import { confirmPayment } from './answer-payment.ts';
import { jointPayeesOf, type MoneyFrame, moneyFrame } from './money-frame.ts';
import { type PartWanted, readSpread, spreadText } from './spread-wanted.ts';

export interface PaymentToRecord {
  readonly agreementId: string;
  /** The caller's party paid it, or received it. */
  readonly direction: 'paid' | 'received';
  /**
   * `amount`, `paid_on`, `method` (check, transfer, cash, other) and optionally `reference`, `spread` (oldest-first,
   * in-proportion, as-said), `made_out_to` (seller, jointly) and `past_lien`: why a lender was passed over.
   */
  readonly payment: InputRow;
  /** For `as-said`. */
  readonly parts?: readonly PartWanted[];
  readonly confirmed?: boolean;
  readonly key?: string;
}

export interface RecordedPayment {
  readonly paymentId: string;
  /** Whether it counts already. */
  readonly counts: boolean;
}

/**
 * Refuses `not-allowed`, `not-found`, `not-yours`, `bad-input`, and `unusual` for more than is due, a payment past a
 * lender with a lien, and one that looks like another that is recorded.
 */
export async function recordPayment(
  context: Context,
  { agreementId, direction, payment, parts = [], confirmed, key }: PaymentToRecord,
): Promise<RecordedPayment> {
  permit(context, 'record-payment');
  const input = {
    direction,
    payment,
    parts: parts.map(({ documentId, amount }) => ({ documentId, amount })),
  };
  const asked = { verb: 'record-payment', subject: agreementId, key, input };
  return await doOnce(context, asked, async (tx) => {
    const frame = await moneyFrame(tx, context, agreementId);
    const given = readPayment(frame, payment);
    const isBuyers = (frame.side === 'buyer') === (direction === 'paid');
    const spread = readSpread(frame, { kind: given.spread, parts, amount: given.amount });
    if (!isBuyers) refuseTooMuchBack(frame, given);
    if (isBuyers) refusePastLien(frame, given, confirmed);
    refuseUnusual([...doubts(frame, { given, isBuyers })], confirmed);
    const fact: PaymentFact = {
      payer: isBuyers ? frame.buyerId : frame.sellerId,
      party: context.caller.partyId,
      amount: frame.print(given.amount),
      currency: frame.money.currency,
      paidOn: given.paidOn,
      method: given.method,
      reference: given.reference,
      spread: spreadText(spread, frame),
      madeOutTo: isBuyers ? given.madeOutTo : 'seller',
      pastLien: isBuyers ? given.pastLien : null,
    };
    const paymentId = await enterPayment(tx, context, { frame, fact });
    if (direction === 'received') {
      const recorded = { id: paymentId, agreementId, fact, recordedAt: frame.recorded.recordedAt };
      await confirmPayment(tx, context, { frame, payment: recorded });
    }
    await tellPartner(tx, context, { found: frame.found, kind: 'payment-came' });
    return { paymentId, counts: direction === 'received' };
  });
}

function readPayment(frame: MoneyFrame, input: InputRow): PaymentGiven {
  const [read] = readInputRows([input], {
    shape: PAYMENT_COLUMNS,
    read: (row) => {
      const given = readPaymentRow(row, frame.money);
      if (given && given.paidOn > frame.today) {
        row.fault('paid_on', `is still to come; today is ${frame.today}. Record a payment once it is made`);
      }
      return given;
    },
    key: ['amount'],
  });
  if (!read) throw new Error('A payment that was read is not there');
  return read.found;
}

/** The seller gives back what is on account, and no more. */
function refuseTooMuchBack({ standing, print }: MoneyFrame, { amount }: PaymentGiven): void {
  if (amount <= standing.onAccount) return;
  const most = standing.onAccount > 0n ? `at most ${print(standing.onAccount)}` : 'nothing';
  throw badInput([
    { column: 'amount', message: `is more than can be paid back: the buyer has ${most} on account` },
  ]);
}

/** Asks once, and takes a reason with the answer: a lender that is passed over may ask to be paid again. */
function refusePastLien(
  { conditions, rows }: MoneyFrame,
  { madeOutTo, pastLien }: PaymentGiven,
  confirmed: boolean | undefined,
): void {
  const lenders = jointPayeesOf(conditions, rows);
  if (lenders.length === 0 || madeOutTo === 'jointly') return;
  const named = lenders.join(' and ');
  refuseUnusual(
    [
      `${named} has a lien on the feed and is to be named on each payment. Whoever pays past a lender may have to pay twice; ask a licensed adviser. Make it out jointly, or say why not and confirm it`,
    ],
    confirmed,
  );
  if (pastLien === null) {
    throw badInput([
      {
        column: 'past_lien',
        message: `must say why ${named} is not named on the payment; it stays on record`,
      },
    ]);
  }
}

function* doubts(
  { standing, rows, print, buyerId }: MoneyFrame,
  { given, isBuyers }: { readonly given: PaymentGiven; readonly isBuyers: boolean },
): Iterable<string> {
  const due = standing.documents.reduce((sum, { open, held }) => sum + open - held, 0n);
  if (isBuyers && given.amount > due) {
    const over = print(given.amount - due);
    yield `${over} more than the ${print(due)} that is open and not held; it would stay on account`;
  }
  const withdrawn = new Set(
    rows.answers.filter(({ fact }) => fact.answer !== 'confirmed').map(({ fact }) => fact.payment),
  );
  const twin = rows.payments.find(
    ({ id, fact }) =>
      !withdrawn.has(id) &&
      (fact.payer === buyerId) === isBuyers &&
      fact.amount === print(given.amount) &&
      fact.paidOn === given.paidOn &&
      fact.reference === given.reference,
  );
  if (twin) yield `A payment of ${twin.fact.amount} on ${twin.fact.paidOn} is recorded already`;
}

async function enterPayment(
  tx: Transaction,
  context: Context,
  { frame, fact }: { readonly frame: MoneyFrame; readonly fact: PaymentFact },
): Promise<string> {
  const id = context.newId();
  await insertPayment(tx, { id, fact }, frame.recorded);
  await enterFacts(tx, [{ kind: 'payment', fact, subjectId: id, postings: [] }], frame.recorded);
  return id;
}
