/**
 * A version of an agreement as PDF: the same bytes for both parties.
 */
import { printAgreement } from '../../../../usecases/agreements/print-agreement.ts';
import { answerPaper } from '../../../server/paper.ts';

export async function GET(
  request: Request,
  { params }: { readonly params: Promise<{ readonly id: string }> },
): Promise<Response> {
  const { id } = await params;
  return await answerPaper(request, (context, asked) =>
    printAgreement(context, { agreementId: id, ...asked }),
  );
}
