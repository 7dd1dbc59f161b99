/**
 * Says what a price series is.
 */
import { setTermsOfSeries } from '../../../../operations/price-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(setTermsOfSeries);
