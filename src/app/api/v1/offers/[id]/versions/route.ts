/**
 * A new version of an offer.
 */
import { counterOneOffer } from '../../../../operations/bargain-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(counterOneOffer);
