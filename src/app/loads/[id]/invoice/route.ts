/**
 * The invoice of a settled load as PDF: the same bytes for both parties.
 */
import { readFonts } from '../../../../files/read-fonts.ts';
import { printInvoice } from '../../../../usecases/settlements/print-invoice.ts';
import { answer } from '../../../server/answer.ts';
import { currentContext } from '../../../server/current-caller.ts';

let fonts: ReturnType<typeof readFonts> | undefined;

export async function GET(
  _: Request,
  { params }: { readonly params: Promise<{ readonly id: string }> },
): Promise<Response> {
  return await answer(async () => {
    const { id } = await params;
    const context = await currentContext();
    fonts ??= readFonts();
    const { bytes, number } = await printInvoice(context, { loadId: id, fonts: await fonts });
    const name = `invoice-${number.replace(/[^A-Za-z0-9.-]+/g, '-')}.pdf`;
    return new Response(Uint8Array.from(bytes), {
      headers: {
        'content-type': 'application/pdf',
        'content-disposition': `inline; filename="${name}"`,
        'cache-control': 'private, no-store',
      },
    });
  });
}
