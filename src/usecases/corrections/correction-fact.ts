/**
 * What the journal remembers of an agreed correction.
 */
import type { CorrectionAnswerFact, CorrectionFact } from '../../journal/facts.ts';
import type { CorrectionRow } from '../../store/rows/correction-rows.ts';

export function correctionFact(
  row: Pick<CorrectionRow, 'subjectId' | 'document' | 'reason' | 'byPartyId'> & { readonly subject: string },
): CorrectionFact {
  const { subject, subjectId, document, reason, byPartyId } = row;
  return { subject, subjectId, document, reason, party: byPartyId };
}

export function answerFact({
  id,
  answer,
  answerReason,
  answeredBy,
}: Omit<CorrectionRow, 'subject'>): CorrectionAnswerFact {
  return { correction: id, answer: answer ?? '', reason: answerReason, party: answeredBy ?? '' };
}
