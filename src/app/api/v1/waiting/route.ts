/**
 * What waits, and for whom.
 */
import { listWaiting } from '../../operations/load-operations.ts';
import { serve } from '../../serve-operation.ts';

export const GET = serve(listWaiting);
