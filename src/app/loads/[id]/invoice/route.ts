/**
 * The settlement sheet of a load as PDF: the same bytes for both parties.
 */
import { answer } from '../../../server/answer.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { invoiceAnswer } from './invoice-answer.ts';

export async function GET(
  _: Request,
  { params }: { readonly params: Promise<{ readonly id: string }> },
): Promise<Response> {
  return await answer(async () => {
    const { id } = await params;
    return await invoiceAnswer(await currentContext(), id);
  });
}
