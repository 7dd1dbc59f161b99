/**
 * A file of a lot, to save.
 */
import { readFile } from '../../../../../usecases/lots/lot-files.ts';
import { answer } from '../../../../server/answer.ts';
import { currentContext } from '../../../../server/current-caller.ts';
import { fileResponse } from '../../../../server/file-response.ts';

export async function GET(
  _: Request,
  { params }: { readonly params: Promise<{ readonly id: string; readonly file: string }> },
): Promise<Response> {
  return await answer(async () => {
    const { id, file } = await params;
    return fileResponse(await readFile(await currentContext(), { lotId: id, fileId: file }));
  });
}
