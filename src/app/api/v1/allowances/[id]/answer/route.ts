/**
 * Ends the proposal of an allowance.
 */
import { answerOneAllowance } from '../../../../operations/settlement-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(answerOneAllowance);
