/**
 * The scales that the caller’s party may see, and new ones of its own.
 */
import { describeScale, listScales } from '../../operations/scale-house-operations.ts';
import { serve } from '../../serve-operation.ts';

export const GET = serve(listScales);
export const POST = serve(describeScale);
