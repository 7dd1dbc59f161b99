/**
 * Ends an offer, `{}`: whoever sent the newest version withdraws it, the other side declines it.
 */
import { z } from 'zod';
import { endOffer } from '../../../../../../usecases/offers/end-offer.ts';
import { doJson, type OfId } from '../../../../ask-json.ts';

const shape = z.strictObject({});

export async function POST(request: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await doJson(request, {
    shape,
    work: (context, asked) => endOffer(context, { offerId: id, ...asked }),
  });
}
