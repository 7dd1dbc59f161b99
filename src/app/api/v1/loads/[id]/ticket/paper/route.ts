/**
 * The scale ticket of a load as PDF.
 */
import { readTicketPaper } from '../../../../../operations/file-operations.ts';
import { serve } from '../../../../../serve-operation.ts';

export const GET = serve(readTicketPaper);
