/**
 * One offer with all its versions.
 */
import { readOneOffer } from '../../../operations/bargain-operations.ts';
import { serve } from '../../../serve-operation.ts';

export const GET = serve(readOneOffer);
