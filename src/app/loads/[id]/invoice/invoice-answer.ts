/**
 * The settlement sheet of a load as an answer, for its page and for programs.
 */
import type { Context } from '../../../../usecases/context.ts';
import { printInvoice } from '../../../../usecases/settlements/print-invoice.ts';
import { pdfResponse } from '../../../server/paper.ts';

/** Refuses as `printInvoice`. */
export async function invoiceAnswer(context: Context, loadId: string): Promise<Response> {
  return await pdfResponse(async (fonts) => {
    const { bytes, number } = await printInvoice(context, { loadId, fonts });
    return { bytes, name: `settlement-${number}` };
  });
}
