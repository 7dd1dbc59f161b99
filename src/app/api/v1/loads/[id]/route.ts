/**
 * One load with everything that is known of it.
 */
import { readLoad } from '../../../../../usecases/loads/read-load.ts';
import { readerLocale } from '../../../../server/current-caller.ts';
import { type OfId, readJson } from '../../../ask-json.ts';

export async function GET(_: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  const locale = await readerLocale();
  return await readJson((context) => readLoad(context, { loadId: id, locale }));
}
