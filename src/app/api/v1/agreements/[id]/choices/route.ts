/**
 * Records decisions about loads of an agreement.
 */
import { recordSomeChoices } from '../../../../operations/settlement-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(recordSomeChoices);
