/**
 * The results of an agreement; and recording some.
 */
import { listResults, recordSomeResults } from '../../../../operations/result-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const GET = serve(listResults);
export const POST = serve(recordSomeResults);
