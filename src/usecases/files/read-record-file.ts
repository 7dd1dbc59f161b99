/**
 * A file of an agreement, for its two parties and who advises them.
 */
import { type FileRow, readFile } from '../../store/rows/file-rows.ts';
import { findAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';

/** Refuses `not-allowed`, `not-found`. The kind is one of `FILE_KINDS`, told from the bytes when they came. */
export async function readRecordFile(
  context: Context,
  { agreementId, fingerprint }: { readonly agreementId: string; readonly fingerprint: string },
): Promise<FileRow> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    await findAgreement(tx, agreementId);
    const file = /^[0-9a-f]{64}$/.test(fingerprint)
      ? await readFile(tx, { agreementId, fingerprint })
      : undefined;
    if (!file) throw new Refusal('not-found', 'There is no such file.');
    return file;
  });
}
