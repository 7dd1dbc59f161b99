/**
 * The corrections of an agreement; and proposing one.
 */
import { listCorrections, proposeOneCorrection } from '../../../../operations/settlement-operations.ts';
import { serve } from '../../../../serve-operation.ts';

export const GET = serve(listCorrections);
export const POST = serve(proposeOneCorrection);
