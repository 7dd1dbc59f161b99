/**
 * The scale ticket of a load as PDF: the same bytes for both parties.
 */
import { answer } from '../../../server/answer.ts';
import { currentContext } from '../../../server/current-caller.ts';
import { ticketAnswer } from './ticket-answer.ts';

export async function GET(
  _: Request,
  { params }: { readonly params: Promise<{ readonly id: string }> },
): Promise<Response> {
  return await answer(async () => {
    const { id } = await params;
    return await ticketAnswer(await currentContext(), id);
  });
}
