/**
 * What the other party says of a result: it confirms it, or contests it and says why. Each party's newest word counts.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

export interface ResultAnswerRow {
  readonly id: string;
  readonly resultId: string;
  readonly partyId: string;
  readonly answer: 'confirm' | 'contest';
  readonly reason: string | null;
}

/** All answers of an agreement, in the order in which they were given. */
export async function readResultAnswers(
  tx: Transaction,
  agreementId: string,
): Promise<readonly ResultAnswerRow[]> {
  return await tx.$queryRawUnsafe<ResultAnswerRow[]>(
    `SELECT id, result_id AS "resultId", party_id AS "partyId", answer, reason FROM result_answer
     WHERE agreement_id = $1::uuid ORDER BY recorded_at, id`,
    agreementId,
  );
}

export async function insertResultAnswer(
  tx: Transaction,
  row: ResultAnswerRow,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'result_answer', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [row.id]],
    result_id: ['uuid', [row.resultId]],
    party_id: ['uuid', [row.partyId]],
    answer: ['text', [row.answer]],
    reason: ['text', [row.reason]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}
