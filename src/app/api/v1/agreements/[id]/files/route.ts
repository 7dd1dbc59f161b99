/**
 * Keeps a file of an agreement.
 */
import { recordOneFile } from '../../../../operations/file-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const POST = serve(recordOneFile);
