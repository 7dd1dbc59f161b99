/**
 * Accounts for a ticket number that no load has.
 */
import { spendOneTicket } from '../../../../../operations/scale-house-operations.ts';
import { serve } from '../../../../../serve-operation.ts';

export const POST = serve(spendOneTicket);
