/**
 * The settlements of an agreement; and settling loads.
 */
import { listSettlements, settleSomeLoads } from '../../../../operations/settlement-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const GET = serve(listSettlements);
export const POST = serve(settleSomeLoads);
