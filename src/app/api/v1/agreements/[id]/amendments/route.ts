/**
 * Proposes other terms of an agreement.
 */
import { proposeOneAmendment } from '../../../../operations/bargain-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(proposeOneAmendment);
