/**
 * The scales that the caller’s party may see.
 */
import { listScales } from '../../operations/scale-house-operations.ts';
import { serve } from '../../serve-operation.ts';

export const GET = serve(listScales);
