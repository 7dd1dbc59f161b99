/**
 * The corrections that were proposed under an agreement, and how each ended.
 */
import {
  type CorrectionEnd,
  type CorrectionSubject,
  readCorrections as readCorrectionRows,
} from '../../store/rows/correction-rows.ts';
import { findAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import type { InputRow } from '../read-input-rows.ts';

export interface CorrectionView {
  readonly id: string;
  readonly subject: CorrectionSubject;
  /** The load, or the version of the result or quote that it puts right. */
  readonly subjectId: string;
  /** The whole row as it is to be. */
  readonly figures: InputRow;
  readonly reason: string;
  /** Whether the caller's own party proposed it; then the other side answers, and ours may withdraw it. */
  readonly isOurs: boolean;
  /** ISO 8601, UTC. */
  readonly proposedAt: string;
  /** null while it is open. */
  readonly answer: CorrectionEnd | null;
  readonly answerReason: string | null;
}

/** The first proposed first. Refuses `not-allowed`, and `not-found` for an agreement of others. */
export async function readCorrections(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<readonly CorrectionView[]> {
  permit(context, 'read');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    await findAgreement(tx, agreementId);
    const rows = await readCorrectionRows(tx, agreementId);
    return rows.map(({ document, byPartyId, recordedAt, ...row }) => ({
      id: row.id,
      subject: row.subject,
      subjectId: row.subjectId,
      figures: JSON.parse(document) as InputRow,
      reason: row.reason,
      isOurs: byPartyId === partyId,
      proposedAt: recordedAt,
      answer: row.answer,
      answerReason: row.answerReason,
    }));
  });
}
