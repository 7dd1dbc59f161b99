/**
 * What the journal remembers of an answer to a result.
 */
import type { ResultAnswerFact } from '../../journal/facts.ts';
import type { ResultAnswerRow } from '../../store/rows/result-answer-rows.ts';

export function resultAnswerFact({ resultId, partyId, answer, reason }: ResultAnswerRow): ResultAnswerFact {
  return { result: resultId, party: partyId, answer, reason };
}
