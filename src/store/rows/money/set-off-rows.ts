/**
 * Set-offs: money on account that one side proposes to use for invoices, and what the other side says.
 */
import type { SetOffAnswerFact, SetOffFact } from '../../../journal/money-facts.ts';
import type { Transaction } from '../../open-store.ts';
import { insertRows } from '../insert-rows.ts';
import type { Recorded } from '../result-rows.ts';
import { insertAllocations } from './allocation-rows.ts';
import type { New } from './payment-rows.ts';
import { allocatedBy, OF_AGREEMENTS, STAMP, type Stamped } from './row-stamp.ts';

export type SetOffRow = Stamped<SetOffFact>;
export type SetOffAnswerRow = Stamped<SetOffAnswerFact>;

export async function insertSetOff(
  tx: Transaction,
  { id, fact }: New<SetOffFact>,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'set_off', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [id]],
    amount: ['numeric', [fact.amount]],
    currency: ['text', [fact.currency]],
    spread: ['text', [fact.spread]],
    reason: ['text', [fact.reason]],
    by_party_id: ['uuid', [fact.party]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

/** Writes the answer, with what it settles. */
export async function insertSetOffAnswer(
  tx: Transaction,
  { id, fact }: New<SetOffAnswerFact>,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'set_off_answer', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [id]],
    set_off_id: ['uuid', [fact.setOff]],
    answer: ['text', [fact.answer]],
    reason: ['text', [fact.reason]],
    by_party_id: ['uuid', [fact.party]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
  await insertAllocations(tx, agreementId, [{ sourceId: id, allocated: fact.allocated }]);
}

/** The set-offs of some agreements, the first proposed first. */
export async function readSetOffs(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly SetOffRow[]> {
  return await tx.$queryRawUnsafe<SetOffRow[]>(
    `SELECT ${STAMP}, json_build_object('amount', t.amount::text, 'currency', t.currency, 'spread', t.spread,
       'reason', t.reason, 'party', t.by_party_id) AS fact
     FROM set_off t WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
    agreementIds,
  );
}

export async function readSetOffAnswers(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly SetOffAnswerRow[]> {
  return await tx.$queryRawUnsafe<SetOffAnswerRow[]>(
    `SELECT ${STAMP}, json_build_object('setOff', t.set_off_id, 'answer', t.answer, 'reason', t.reason,
       'party', t.by_party_id, 'allocated', ${allocatedBy('t.id')}) AS fact
     FROM set_off_answer t WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
    agreementIds,
  );
}
