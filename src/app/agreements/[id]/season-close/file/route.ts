/**
 * A sealed season as one file: the same bytes for both parties.
 */
import { seasonArchive } from '../../../../../documents/season-file/season-archive.ts';
import { exportSeason } from '../../../../../usecases/season-close/export-season.ts';
import { answer } from '../../../../server/answer.ts';
import { currentContext } from '../../../../server/current-caller.ts';
import { fileResponse } from '../../../../server/file-response.ts';

export async function GET(
  _: Request,
  { params }: { readonly params: Promise<{ readonly id: string }> },
): Promise<Response> {
  const { id } = await params;
  return await answer(async () => {
    const { name, text } = await exportSeason(await currentContext(), { agreementId: id });
    return fileResponse({ name: `${name}.zip`, kind: 'application/zip', bytes: seasonArchive(text) });
  });
}
