/**
 * Keeps a file that something recorded will name, such as the photo of a ticket.
 */
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { fileFingerprint, type GivenFile, keepFile } from './keep-file.ts';

export interface FileToRecord {
  readonly agreementId: string;
  readonly file: GivenFile;
  readonly key?: string;
}

/**
 * Returns its fingerprint, by which a ticket names it; the same bytes again are kept once. Refuses `not-allowed`,
 * `bad-input` for what is no PDF and no picture, or is too large, `not-found`, `not-yours`.
 */
export async function recordFile(
  context: Context,
  { agreementId, file, key }: FileToRecord,
): Promise<{ readonly fingerprint: string }> {
  permit(context, 'record-load');
  const { personId } = context.caller;
  const input = { name: file.name, fingerprint: fileFingerprint(file) };
  return await doOnce(context, { verb: 'record-file', subject: agreementId, key, input }, async (tx) => {
    await findOwnAgreement(tx, context.caller, agreementId);
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
    return { fingerprint: await keepFile(tx, file, recorded) };
  });
}
