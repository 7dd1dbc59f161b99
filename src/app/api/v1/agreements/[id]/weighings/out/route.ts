/**
 * Weighs a truck empty.
 */
import { weighOneOut } from '../../../../../operations/scale-house-operations.ts';
import { serve } from '../../../../../serve-operation.ts';

export const POST = serve(weighOneOut);
