/**
 * The invoice of a settled load as an answer, for its page and for programs.
 */
import { readFonts } from '../../../../files/read-fonts.ts';
import type { Context } from '../../../../usecases/context.ts';
import { printInvoice } from '../../../../usecases/settlements/print-invoice.ts';

let fonts: ReturnType<typeof readFonts> | undefined;

/** Refuses as `printInvoice`. */
export async function invoiceAnswer(context: Context, loadId: string): Promise<Response> {
  fonts ??= readFonts();
  const { bytes, number } = await printInvoice(context, { loadId, fonts: await fonts });
  const name = `invoice-${number.replace(/[^A-Za-z0-9.-]+/g, '-')}.pdf`;
  return new Response(Uint8Array.from(bytes), {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${name}"`,
      'cache-control': 'private, no-store',
    },
  });
}
