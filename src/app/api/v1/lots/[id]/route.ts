/**
 * One lot; and a new version of it.
 */
import { changeOneLot, readOneLot } from '../../../operations/bargain-operations.ts';
import { serve } from '../../../serve-operation.ts';

export const GET = serve(readOneLot);
export const POST = serve(changeOneLot);
