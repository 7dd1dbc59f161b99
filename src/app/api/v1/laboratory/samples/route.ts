/**
 * What a laboratory may enter.
 */
import { listLaboratoryWork } from '../../../operations/result-operations.ts';
import { serve } from '../../../serve-operation.ts';

export const GET = serve(listLaboratoryWork);
