/**
 * Attaches the laboratory's own report to a result: as its next version, with the same figures. Loads that have settled
 * stay as they are, since no figure changes.
 */
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { insertResults, type ResultRow } from '../../store/rows/result-rows.ts';
import { findOwnAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { newestResult } from '../corrections/put-right.ts';
import { doOnce } from '../do-once.ts';
import { fileFingerprint, type GivenFile, keepFile } from '../files/keep-file.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { Refusal } from '../refusal.ts';
import { resultFact } from './result-fact.ts';

export interface ReportToAttach {
  readonly agreementId: string;
  /** The result that stands now. */
  readonly resultId: string;
  readonly report: GivenFile;
  readonly key?: string;
}

/**
 * Returns the result that stands then. Refuses `not-allowed`, `bad-input` (no PDF, PNG or JPEG, or over 10 MB),
 * `not-found`, `changed-meanwhile`.
 */
export async function attachReport(
  context: Context,
  { agreementId, resultId, report, key }: ReportToAttach,
): Promise<{ readonly resultId: string; readonly fingerprint: string }> {
  permit(context, 'record-result');
  const input = { name: report.name, fingerprint: fileFingerprint(report) };
  return await doOnce(context, { verb: 'attach-report', subject: resultId, key, input }, async (tx) => {
    await findOwnAgreement(tx, context.caller, agreementId);
    if (!isId(resultId)) throw new Refusal('not-found', 'There is no such result.');
    await lockAgreement(tx, agreementId);
    const before = await newestResult(tx, resultId);
    if (before.agreementId !== agreementId) throw new Refusal('not-found', 'There is no such result.');
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    const fingerprint = await keepFile(tx, report, recorded);
    if (before.report === fingerprint) return { resultId, fingerprint };
    const row: ResultRow = {
      ...before,
      id: context.newId(),
      version: before.version + 1,
      reason: 'Report attached',
      report: fingerprint,
    };
    await insertResults(tx, [row], recorded);
    await enterFacts(
      tx,
      [{ kind: 'result', fact: resultFact(row), subjectId: row.id, postings: [] }],
      recorded,
    );
    return { resultId: row.id, fingerprint };
  });
}
