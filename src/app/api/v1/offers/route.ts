/**
 * The offers of the party; and making one.
 */
import { listOffers, makeOneOffer } from '../../operations/bargain-operations.ts';
import { serve } from '../../serve-operation.ts';

export const GET = serve(listOffers);
export const POST = serve(makeOneOffer);
