/**
 * A file of an agreement, to save.
 */
import { readRecordFile } from '../../../../../usecases/files/read-record-file.ts';
import { answer } from '../../../../server/answer.ts';
import { currentContext } from '../../../../server/current-caller.ts';
import { fileResponse } from '../../../../server/file-response.ts';

export async function GET(
  _: Request,
  { params }: { readonly params: Promise<{ readonly id: string; readonly fingerprint: string }> },
): Promise<Response> {
  return await answer(async () => {
    const { id, fingerprint } = await params;
    return fileResponse(await readRecordFile(await currentContext(), { agreementId: id, fingerprint }));
  });
}
