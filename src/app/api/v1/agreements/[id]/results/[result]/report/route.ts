/**
 * Attaches a report to a result.
 */
import { attachOneReport } from '../../../../../../operations/result-operations.ts';
import { serve } from '../../../../../../serve-operation.ts';

export const POST = serve(attachOneReport);
