/**
 * Describes a scale anew.
 */
import { changeOneScale } from '../../../operations/scale-house-operations.ts';
import { serve } from '../../../serve-operation.ts';

export const POST = serve(changeOneScale);
