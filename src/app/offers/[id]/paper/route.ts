/**
 * A version of an offer as PDF: the same bytes for both parties.
 */
import { printOffer } from '../../../../usecases/offers/print-offer.ts';
import { answerPaper } from '../../../server/paper.ts';

export async function GET(
  request: Request,
  { params }: { readonly params: Promise<{ readonly id: string }> },
): Promise<Response> {
  const { id } = await params;
  return await answerPaper(request, (context, asked) => printOffer(context, { offerId: id, ...asked }));
}
