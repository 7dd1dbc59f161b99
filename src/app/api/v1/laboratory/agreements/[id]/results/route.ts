/**
 * Reports results as a laboratory.
 */
import { reportSomeResults } from '../../../../../operations/result-operations.ts';
import { serve } from '../../../../../serve-operation.ts';

export const POST = serve(reportSomeResults);
