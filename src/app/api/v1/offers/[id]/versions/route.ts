/**
 * A new version of an offer, held against the newest: `{ "baseVersion": 2, "document": { … }, "validDays": "7" }`.
 */
import { z } from 'zod';
import { counterOffer } from '../../../../../../usecases/offers/counter-offer.ts';
import { doJson, type OfId } from '../../../../ask-json.ts';

const shape = z.strictObject({
  baseVersion: z.int(),
  document: z.record(z.string(), z.unknown()),
  /** For an amendment: the local date from which it counts. */
  effectiveFrom: z.string().optional(),
  message: z.string().default(''),
  validDays: z.string(),
});

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, { effectiveFrom, ...asked }) =>
      counterOffer(context, {
        offerId: id,
        ...asked,
        ...(effectiveFrom === undefined ? {} : { effectiveFrom }),
      }),
  });
}
