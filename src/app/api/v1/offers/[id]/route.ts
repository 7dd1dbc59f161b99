/**
 * One offer with all its versions and the signatures under each.
 */
import { readOffer } from '../../../../../usecases/offers/read-offer.ts';
import { type OfId, readJson } from '../../../ask-json.ts';

export async function GET(_: Request, { params }: OfId): Promise<Response> {
  const { id } = await params;
  return await readJson((context) => readOffer(context, { offerId: id }));
}
