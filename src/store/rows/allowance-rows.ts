/**
 * Allowances: each is proposed by one side, for one load, and stands once the other side confirms it.
 */
import type { Transaction } from '../open-store.ts';
import { type CorrectionRow, PROPOSALS } from './correction-rows.ts';

export interface AllowanceProposalRow extends Omit<CorrectionRow, 'subject'> {
  readonly subject: 'allowance';
}

/** The allowances that were proposed in an agreement, and how they ended; the first proposed first. */
export async function readAllowanceProposals(
  tx: Transaction,
  agreementId: string,
): Promise<readonly AllowanceProposalRow[]> {
  return await tx.$queryRawUnsafe<AllowanceProposalRow[]>(
    `${PROPOSALS} WHERE c.subject = 'allowance' AND c.agreement_id = $1::uuid ORDER BY c.recorded_at, c.id`,
    agreementId,
  );
}

/** One proposal, or undefined where there is none that the transaction may see. */
export async function findAllowanceProposal(
  tx: Transaction,
  id: string,
): Promise<AllowanceProposalRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<AllowanceProposalRow[]>(
    `${PROPOSALS} WHERE c.subject = 'allowance' AND c.id = $1::uuid`,
    id,
  );
  return row;
}

export interface AllowanceRow {
  readonly loadId: string;
  readonly ticket: string;
  /** Canonical JSON. */
  readonly document: string;
}

/** The agreed allowances of some loads of an agreement. */
export async function readAllowances(
  tx: Transaction,
  agreementId: string,
  loadIds: readonly string[],
): Promise<readonly AllowanceRow[]> {
  return await tx.$queryRawUnsafe<AllowanceRow[]>(
    `SELECT c.subject_id AS "loadId", l.ticket, c.document FROM correction c
     JOIN correction_answer a ON a.agreement_id = c.agreement_id AND a.correction_id = c.id AND a.answer = 'confirmed'
     JOIN current_load l ON l.agreement_id = c.agreement_id AND l.id = c.subject_id
     WHERE c.agreement_id = $1::uuid AND c.subject = 'allowance' AND c.subject_id = ANY($2::uuid[])
     ORDER BY a.recorded_at, a.id`,
    agreementId,
    loadIds,
  );
}
