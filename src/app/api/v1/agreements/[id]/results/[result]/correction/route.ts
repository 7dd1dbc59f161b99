/**
 * Puts a result right.
 */
import { correctOneResult } from '../../../../../../operations/result-operations.ts';
import { serve } from '../../../../../../serve-operation.ts';

export const POST = serve(correctOneResult);
