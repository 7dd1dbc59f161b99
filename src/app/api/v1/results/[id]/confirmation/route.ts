/**
 * Confirms a result.
 */
import { confirmOneResult } from '../../../../operations/result-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(confirmOneResult);
