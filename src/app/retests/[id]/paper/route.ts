/**
 * All of one question about a figure or a weight as PDF: the same bytes for both parties.
 */
import { printRetest } from '../../../../usecases/retests/print-retest.ts';
import { answerPaper } from '../../../server/paper.ts';

export async function GET(
  request: Request,
  { params }: { readonly params: Promise<{ readonly id: string }> },
): Promise<Response> {
  const { id } = await params;
  return await answerPaper(request, (context, { fonts }) => printRetest(context, { retestId: id, fonts }));
}
