/**
 * A document about money as PDF: the same bytes for both parties, each time.
 */
import { printDocument } from '../../../../../usecases/money/print-money.ts';
import { answerPaper } from '../../../../server/paper.ts';

export async function GET(
  request: Request,
  { params }: { readonly params: Promise<{ readonly id: string }> },
): Promise<Response> {
  const { id } = await params;
  return await answerPaper(request, (context, { fonts }) =>
    printDocument(context, { documentId: id, fonts }),
  );
}
