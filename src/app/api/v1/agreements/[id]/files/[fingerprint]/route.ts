/**
 * A file of an agreement.
 */
import { readOneFile } from '../../../../../operations/file-operations.ts';
import { serve } from '../../../../../serve-operation.ts';

export const GET = serve(readOneFile);
