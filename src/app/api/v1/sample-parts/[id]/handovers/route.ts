/**
 * Records that a sealed part was handed over.
 */
import { handOnePartOver } from '../../../../operations/sample-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(handOnePartOver);
