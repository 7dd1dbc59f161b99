/**
 * Ends an offer.
 */
import { endOneOffer } from '../../../../operations/bargain-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(endOneOffer);
