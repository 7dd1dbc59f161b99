/**
 * The invoice of a load as PDF.
 */
import { readInvoice } from '../../../../operations/file-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const GET = serve(readInvoice);
