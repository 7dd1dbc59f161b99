/**
 * The closing statement as PDF: once sealed, the same bytes for both parties.
 */
import { printClose } from '../../../../../usecases/season-close/print-close.ts';
import { answerPaper } from '../../../../server/paper.ts';

export async function GET(
  request: Request,
  { params }: { readonly params: Promise<{ readonly id: string }> },
): Promise<Response> {
  const { id } = await params;
  return await answerPaper(request, (context, { fonts }) => printClose(context, { agreementId: id, fonts }));
}
