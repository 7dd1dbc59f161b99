/**
 * Puts a quote right.
 */
import { correctOneQuote } from '../../../../../../operations/price-operations.ts';
import { serve } from '../../../../../../serve-operation.ts';

export const POST = serve(correctOneQuote);
