/**
 * Settles loads of an agreement: the one that is named, `{ "loadId": "…" }`, or with `{}` all that are ready.
 */
import { z } from 'zod';
import { settleLoads } from '../../../../../../usecases/settlements/settle-loads.ts';
import { doJson, type OfId } from '../../../../ask-json.ts';

const shape = z.strictObject({ loadId: z.string().optional() });

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, { loadId, key }) =>
      settleLoads(context, {
        agreementId: id,
        ...(loadId === undefined ? {} : { loadId }),
        ...(key === undefined ? {} : { key }),
      }),
  });
}
