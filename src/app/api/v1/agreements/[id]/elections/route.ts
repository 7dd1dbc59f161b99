/**
 * Records pricing dates of an agreement.
 */
import { recordSomeElections } from '../../../../operations/price-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(recordSomeElections);
