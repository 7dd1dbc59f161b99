/**
 * The scale ticket of a load as an answer, for its page and for programs.
 */
import { readFonts } from '../../../../files/read-fonts.ts';
import type { Context } from '../../../../usecases/context.ts';
import { printTicket } from '../../../../usecases/loads/print-ticket.ts';

let fonts: ReturnType<typeof readFonts> | undefined;

/** Refuses as `printTicket`. */
export async function ticketAnswer(context: Context, loadId: string): Promise<Response> {
  fonts ??= readFonts();
  const { bytes, ticket } = await printTicket(context, { loadId, fonts: await fonts });
  return new Response(Uint8Array.from(bytes), {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="ticket-${ticket.replace(/[^A-Za-z0-9.-]+/g, '-')}.pdf"`,
      'cache-control': 'private, no-store',
    },
  });
}
