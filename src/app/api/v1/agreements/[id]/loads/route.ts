/**
 * Records scale tickets of an agreement.
 */
import { recordSomeLoads } from '../../../../operations/load-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(recordSomeLoads);
