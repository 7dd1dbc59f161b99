/**
 * One agreement in words.
 */
import { readOneAgreement } from '../../../operations/agreement-operations.ts';
import { serve } from '../../../serve-operation.ts';

export const GET = serve(readOneAgreement);
