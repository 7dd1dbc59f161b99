/**
 * Trucks that are still to be weighed empty; and weighing one full.
 */
import { listWeighings, weighOneIn } from '../../../../operations/scale-house-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const GET = serve(listWeighings);
export const POST = serve(weighOneIn);
