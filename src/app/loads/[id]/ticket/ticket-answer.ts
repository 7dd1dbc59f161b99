/**
 * The scale ticket of a load as an answer, for its page and for programs.
 */
import type { Context } from '../../../../usecases/context.ts';
import { printTicket } from '../../../../usecases/loads/print-ticket.ts';
import { pdfResponse } from '../../../server/paper.ts';

/** Refuses as `printTicket`. */
export async function ticketAnswer(context: Context, loadId: string): Promise<Response> {
  return await pdfResponse(async (fonts) => {
    const { bytes, ticket } = await printTicket(context, { loadId, fonts });
    return { bytes, name: `ticket-${ticket}` };
  });
}
