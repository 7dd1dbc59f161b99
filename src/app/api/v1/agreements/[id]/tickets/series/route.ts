/**
 * Begins a series of tickets.
 */
import { beginSeries } from '../../../../../operations/scale-house-operations.ts';
import { serve } from '../../../../../serve-operation.ts';

export const POST = serve(beginSeries);
