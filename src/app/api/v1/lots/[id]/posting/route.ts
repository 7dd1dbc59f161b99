/**
 * Posts a lot.
 */
import { postOneLot } from '../../../../operations/bargain-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(postOneLot);
