/**
 * The lots that the party may see; and a new one, as a draft.
 */
import { draftOneLot, listLots } from '../../operations/bargain-operations.ts';
import { serve } from '../../serve-operation.ts';

export const GET = serve(listLots);
export const POST = serve(draftOneLot);
