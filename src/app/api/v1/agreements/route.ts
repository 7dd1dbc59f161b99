/**
 * The agreements of the caller’s party; and recording one.
 */
import { listAgreements, recordOneAgreement } from '../../operations/agreement-operations.ts';
import { serve } from '../../serve-operation.ts';

export const GET = serve(listAgreements);
export const POST = serve(recordOneAgreement);
