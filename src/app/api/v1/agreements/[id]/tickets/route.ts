/**
 * The book of tickets of an agreement.
 */
import { readBook } from '../../../../operations/scale-house-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const GET = serve(readBook);
