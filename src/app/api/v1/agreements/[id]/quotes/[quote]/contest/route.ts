/**
 * Contests a quote.
 */
import { contestOneQuote } from '../../../../../../operations/price-operations.ts';
import { serve } from '../../../../../../serve-operation.ts';

export const POST = serve(contestOneQuote);
