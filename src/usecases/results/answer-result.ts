/**
 * The other side's word about a result: it confirms the figures, or contests them and says why. Loads wait for a
 * contested result as if there were none, until whoever contests it confirms, or other figures are reported.
 */
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readSettledUpon } from '../../store/rows/correction-rows.ts';
import {
  insertResultAnswer,
  type ResultAnswerRow,
  readResultAnswers,
} from '../../store/rows/result-answer-rows.ts';
import { findResult } from '../../store/rows/result-rows.ts';
import { findOwnAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { Refusal } from '../refusal.ts';
import { resultAnswerFact } from './answer-fact.ts';

export interface ResultToAnswer {
  /** The result that stands now. */
  readonly resultId: string;
  readonly key?: string;
}

/**
 * Returns whether it is news. Refuses `not-allowed`, `not-found`, `changed-meanwhile` where another result stands by now,
 * and `not-yours` for a result that the caller's own side entered.
 */
export async function confirmResult(
  context: Context,
  { resultId, key }: ResultToAnswer,
): Promise<{ readonly isNew: boolean }> {
  return await answerResult(context, { resultId, key, answer: 'confirm', reason: undefined });
}

/**
 * Refuses as `confirmResult`, `bad-input` without a reason, and `already-settled` where a load has settled from it: then
 * a retest, or a correction that both sides agree on, is the way.
 */
export async function contestResult(
  context: Context,
  { resultId, reason, key }: ResultToAnswer & { readonly reason: string },
): Promise<{ readonly isNew: boolean }> {
  return await answerResult(context, { resultId, key, answer: 'contest', reason });
}

interface Answered {
  readonly resultId: string;
  readonly answer: ResultAnswerRow['answer'];
  readonly reason: string | undefined;
  readonly key: string | undefined;
}

async function answerResult(context: Context, { resultId, answer, reason, key }: Answered) {
  permit(context, 'record-result');
  const { partyId, personId } = context.caller;
  const input = { answer, reason: reason ?? null };
  return await doOnce(context, { verb: 'answer-result', subject: resultId, key, input }, async (tx) => {
    const seen = isId(resultId) ? await findResult(tx, resultId) : undefined;
    if (!seen) throw new Refusal('not-found', 'There is no such result.');
    const { agreementId } = seen;
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    await lockAgreement(tx, agreementId);
    const result = await findResult(tx, resultId);
    if (!result?.isNewest) {
      throw new Refusal(
        'changed-meanwhile',
        `Another result of sample ${seen.sample} stands by now. Look at it again.`,
      );
    }
    if (result.enteredBy === partyId) {
      throw new Refusal(
        'not-yours',
        `Your side entered the result of sample ${result.sample}; the other side confirms or contests it.`,
      );
    }
    const why = reason === undefined ? null : readReason(reason);
    if (answer === 'contest') {
      const { length } = await readSettledUpon(tx, agreementId, { resultId });
      if (length > 0) {
        throw new Refusal(
          'already-settled',
          `${length === 1 ? 'A load has' : `${length} loads have`} settled from sample ${result.sample}. Ask for a retest, or propose a correction to the other side.`,
        );
      }
    }
    const before = (await readResultAnswers(tx, agreementId)).findLast(
      (row) => row.resultId === resultId && row.partyId === partyId,
    );
    if (before?.answer === answer && before.reason === why) return { isNew: false };
    const row: ResultAnswerRow = { id: context.newId(), resultId, partyId, answer, reason: why };
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
    await insertResultAnswer(tx, row, recorded);
    await enterFacts(
      tx,
      [{ kind: 'result-answer', fact: resultAnswerFact(row), subjectId: row.id, postings: [] }],
      recorded,
    );
    if (answer === 'contest') await tellPartner(tx, context, { found, kind: 'result-contested' });
    return { isNew: true };
  });
}
