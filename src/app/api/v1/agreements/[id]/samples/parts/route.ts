/**
 * Records sealed parts of samples.
 */
import { sealSomeParts } from '../../../../../operations/sample-operations.ts';
import { serve } from '../../../../../serve-operation.ts';

export const POST = serve(sealSomeParts);
