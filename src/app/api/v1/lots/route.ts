/**
 * The lots that the caller's party may see, asked for as on the page; and a new one, as a draft.
 */
import { z } from 'zod';
import { readFeedRequest } from '../../../../usecases/lots/feed-request.ts';
import { draftLot } from '../../../../usecases/lots/keep-lot.ts';
import { readFeedForSale } from '../../../../usecases/lots/read-feed-for-sale.ts';
import { badInput } from '../../../../usecases/read-input-rows.ts';
import { readerLocale } from '../../../server/current-caller.ts';
import { doJson, readJson } from '../../ask-json.ts';

export async function GET(asking: Request): Promise<Response> {
  const locale = await readerLocale();
  const { searchParams } = new URL(asking.url);
  return await readJson(async (context) => {
    const { request, problems } = readFeedRequest(new Map(searchParams));
    if (problems.length > 0) throw badInput(problems);
    return await readFeedForSale(context, { request, locale });
  });
}

const shape = z.strictObject({ document: z.unknown(), address: z.string().exactOptional() });

export async function POST(request: Request): Promise<Response> {
  return await doJson(request, { shape, work: draftLot });
}
