/**
 * The samples of an agreement; and taking one.
 */
import { listSamples, takeOneSample } from '../../../../operations/sample-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const GET = serve(listSamples);
export const POST = serve(takeOneSample);
