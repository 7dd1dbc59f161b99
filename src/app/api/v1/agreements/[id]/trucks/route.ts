/**
 * The trucks of an agreement.
 */
import { listTrucks } from '../../../../operations/scale-house-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const GET = serve(listTrucks);
