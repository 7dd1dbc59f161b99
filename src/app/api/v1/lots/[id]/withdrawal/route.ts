/**
 * Takes a lot back.
 */
import { withdrawOneLot } from '../../../../operations/bargain-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(withdrawOneLot);
