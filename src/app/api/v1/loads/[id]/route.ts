/**
 * One load.
 */
import { readOneLoad } from '../../../operations/load-operations.ts';
import { serve } from '../../../serve-operation.ts';

export const GET = serve(readOneLoad);
