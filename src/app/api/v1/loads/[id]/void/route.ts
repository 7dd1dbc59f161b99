/**
 * Voids a ticket.
 */
import { voidOneLoad } from '../../../../operations/load-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(voidOneLoad);
