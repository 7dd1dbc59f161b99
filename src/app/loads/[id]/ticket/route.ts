/**
 * The scale ticket of a load as PDF: the same bytes for both parties.
 */
import { readFonts } from '../../../../files/read-fonts.ts';
import { printTicket } from '../../../../usecases/loads/print-ticket.ts';
import { answer } from '../../../server/answer.ts';
import { currentContext } from '../../../server/current-caller.ts';

let fonts: ReturnType<typeof readFonts> | undefined;

export async function GET(
  _: Request,
  { params }: { readonly params: Promise<{ readonly id: string }> },
): Promise<Response> {
  return await answer(async () => {
    const { id } = await params;
    fonts ??= readFonts();
    const { bytes, ticket } = await printTicket(await currentContext(), { loadId: id, fonts: await fonts });
    return new Response(Uint8Array.from(bytes), {
      headers: {
        'content-type': 'application/pdf',
        'content-disposition': `inline; filename="ticket-${ticket.replace(/[^A-Za-z0-9.-]+/g, '-')}.pdf"`,
        'cache-control': 'private, no-store',
      },
    });
  });
}
