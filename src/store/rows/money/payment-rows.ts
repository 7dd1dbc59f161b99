/**
 * Payments, what became of them, and those that a bank gave back.
 */
import type { PaymentAnswerFact, PaymentFact, PaymentReversalFact } from '../../../journal/money-facts.ts';
import type { Transaction } from '../../open-store.ts';
import { insertRows } from '../insert-rows.ts';
import type { Recorded } from '../result-rows.ts';
import { insertAllocations } from './allocation-rows.ts';
import { allocatedBy, OF_AGREEMENTS, STAMP, type Stamped } from './row-stamp.ts';

export interface New<Fact> {
  readonly id: string;
  readonly fact: Fact;
}

export async function insertPayment(
  tx: Transaction,
  { id, fact }: New<PaymentFact>,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'payment', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [id]],
    payer_id: ['uuid', [fact.payer]],
    by_party_id: ['uuid', [fact.party]],
    amount: ['numeric', [fact.amount]],
    currency: ['text', [fact.currency]],
    paid_on: ['date', [fact.paidOn]],
    method: ['text', [fact.method]],
    reference: ['text', [fact.reference]],
    spread: ['text', [fact.spread]],
    made_out_to: ['text', [fact.madeOutTo]],
    past_lien: ['text', [fact.pastLien]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

/** Writes what became of a payment, with what it settles. */
export async function insertPaymentAnswer(
  tx: Transaction,
  { id, fact }: New<PaymentAnswerFact>,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'payment_answer', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [id]],
    payment_id: ['uuid', [fact.payment]],
    answer: ['text', [fact.answer]],
    reason: ['text', [fact.reason]],
    by_party_id: ['uuid', [fact.party]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
  await insertAllocations(tx, agreementId, [{ sourceId: id, allocated: fact.allocated }]);
}

export async function insertPaymentReversal(
  tx: Transaction,
  { id, fact }: New<PaymentReversalFact>,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'payment_reversal', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [id]],
    payment_id: ['uuid', [fact.payment]],
    reversed_on: ['date', [fact.reversedOn]],
    reason: ['text', [fact.reason]],
    by_party_id: ['uuid', [fact.party]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

export type PaymentRow = Stamped<PaymentFact>;
export type PaymentAnswerRow = Stamped<PaymentAnswerFact>;
export type PaymentReversalRow = Stamped<PaymentReversalFact>;

/** The payments of some agreements, the first recorded first. */
export async function readPayments(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly PaymentRow[]> {
  return await tx.$queryRawUnsafe<PaymentRow[]>(
    `SELECT ${STAMP}, json_build_object('payer', t.payer_id, 'party', t.by_party_id, 'amount', t.amount::text,
       'currency', t.currency, 'paidOn', t.paid_on::text, 'method', t.method, 'reference', t.reference,
       'spread', t.spread, 'madeOutTo', t.made_out_to, 'pastLien', t.past_lien) AS fact
     FROM payment t WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
    agreementIds,
  );
}

export async function readPaymentAnswers(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly PaymentAnswerRow[]> {
  return await tx.$queryRawUnsafe<PaymentAnswerRow[]>(
    `SELECT ${STAMP}, json_build_object('payment', t.payment_id, 'answer', t.answer, 'reason', t.reason,
       'party', t.by_party_id, 'allocated', ${allocatedBy('t.id')}) AS fact
     FROM payment_answer t WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
    agreementIds,
  );
}

export async function readPaymentReversals(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly PaymentReversalRow[]> {
  return await tx.$queryRawUnsafe<PaymentReversalRow[]>(
    `SELECT ${STAMP}, json_build_object('payment', t.payment_id, 'reversedOn', t.reversed_on::text,
       'reason', t.reason, 'party', t.by_party_id) AS fact
     FROM payment_reversal t WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
    agreementIds,
  );
}
