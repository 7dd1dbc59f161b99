/**
 * The ticket of a load as it stands.
 */
import { readOneTicket } from '../../../../operations/load-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const GET = serve(readOneTicket);
