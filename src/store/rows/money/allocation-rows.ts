/**
 * What payments, set-offs and credit notes settle of documents. The database refuses more than a document's amount.
 */
import type { AllocationFact } from '../../../journal/money-facts.ts';
import type { Transaction } from '../../open-store.ts';
import { insertRows } from '../insert-rows.ts';

export interface AllocationsOf {
  /** The payment's answer, the set-off's, or the credit note. */
  readonly sourceId: string;
  readonly allocated: readonly AllocationFact[];
}

export async function insertAllocations(
  tx: Transaction,
  agreementId: string,
  sources: readonly AllocationsOf[],
): Promise<void> {
  const rows = sources.flatMap(({ sourceId, allocated }) =>
    allocated.map((part, place) => ({ sourceId, place, ...part })),
  );
  await insertRows(tx, 'allocation', {
    agreement_id: ['uuid', rows.map(() => agreementId)],
    source_id: ['uuid', rows.map(({ sourceId }) => sourceId)],
    place: ['int', rows.map(({ place }) => place)],
    document_id: ['uuid', rows.map(({ document }) => document)],
    amount: ['numeric', rows.map(({ amount }) => amount)],
    discount: ['numeric', rows.map(({ discount }) => discount)],
  });
}
