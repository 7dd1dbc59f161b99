/**
 * Ends a correction.
 */
import { answerOneCorrection } from '../../../../operations/settlement-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(answerOneCorrection);
