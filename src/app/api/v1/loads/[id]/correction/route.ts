/**
 * Puts a ticket right.
 */
import { correctOneLoad } from '../../../../operations/load-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(correctOneLoad);
