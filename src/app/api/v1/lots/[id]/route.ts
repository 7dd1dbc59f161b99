/**
 * One lot; and a new version of it. Quotes and haulage are asked for as on the page.
 */
import { z } from 'zod';
import { readFeedRequest } from '../../../../../usecases/lots/feed-request.ts';
import { changeLot } from '../../../../../usecases/lots/keep-lot.ts';
import { readLotView } from '../../../../../usecases/lots/read-lot-view.ts';
import { badInput } from '../../../../../usecases/read-input-rows.ts';
import { readerLocale } from '../../../../server/current-caller.ts';
import { doJson, type OfId, readJson } from '../../../ask-json.ts';

export async function GET(asking: Request, { params }: OfId): Promise<Response> {
  const [{ id }, locale] = [await params, await readerLocale()];
  const { searchParams } = new URL(asking.url);
  return await readJson(async (context) => {
    const { request, problems } = readFeedRequest(new Map(searchParams));
    if (problems.length > 0) throw badInput(problems);
    return await readLotView(context, { lotId: id, basis: request, locale });
  });
}

const shape = z.strictObject({ document: z.unknown(), address: z.string().exactOptional() });

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, asked) => changeLot(context, { lotId: id, ...asked }),
  });
}
