/**
 * The quotes of an agreement; and recording some.
 */
import { listQuotes, recordSomeQuotes } from '../../../../operations/price-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const GET = serve(listQuotes);
export const POST = serve(recordSomeQuotes);
