/**
 * A page of loads.
 */
import { listLoads } from '../../operations/load-operations.ts';
import { serve } from '../../serve-operation.ts';

export const GET = serve(listLoads);
