/**
 * Proposes to close an agreement early.
 */
import { proposeOneClosing } from '../../../../operations/bargain-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(proposeOneClosing);
