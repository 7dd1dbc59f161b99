/**
 * The allowances of an agreement.
 */
import { listAllowances } from '../../../../operations/settlement-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const GET = serve(listAllowances);
