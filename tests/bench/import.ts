/**
 * A file of another program brought in, measured: 2,000 tickets and 600 results, previewed and taken.
 */
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Caller, Tools } from '../../src/usecases/context.ts';
import { previewImport } from '../../src/usecases/import/preview-import.ts';
import { takeImport } from '../../src/usecases/import/take-import.ts';
import { workedExample } from '../oracle/worked-example.ts';
import {
  csv,
  LAB_HEADER,
  LAB_MATCH,
  labRows,
  SCALE_HEADER,
  SCALE_MATCH,
  scaleRows,
} from '../usecases/scale-house-file.ts';

export interface ImportSeconds {
  readonly preview: number;
  readonly take: number;
  /** The same files once more, which add nothing. */
  readonly again: number;
}

export async function measureImport(tools: Tools, seller: Caller, buyer: Caller): Promise<ImportSeconds> {
  const context = { ...tools, caller: seller };
  const { agreementId } = await recordAgreement(context, {
    document: { ...workedExample.agreement, id: 'I-1' },
    sellerId: seller.partyId,
    buyerId: buyer.partyId,
  });
  const files = [
    { agreementId, match: SCALE_MATCH, bytes: csv(SCALE_HEADER, scaleRows(2000)) },
    { agreementId, match: LAB_MATCH, bytes: csv(LAB_HEADER, labRows(600)) },
  ];
  const timed = async (work: (file: (typeof files)[number]) => Promise<unknown>) => {
    const began = performance.now();
    for (const file of files) await work(file);
    return (performance.now() - began) / 1000;
  };
  return {
    preview: await timed((file) => previewImport(context, file)),
    take: await timed((file) => takeImport(context, file)),
    again: await timed((file) => takeImport(context, file)),
  };
}
