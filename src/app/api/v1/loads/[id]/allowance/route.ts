/**
 * Proposes an allowance for a load.
 */
import { proposeOneAllowance } from '../../../../operations/settlement-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(proposeOneAllowance);
