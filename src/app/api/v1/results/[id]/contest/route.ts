/**
 * Contests a result.
 */
import { contestOneResult } from '../../../../operations/result-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(contestOneResult);
