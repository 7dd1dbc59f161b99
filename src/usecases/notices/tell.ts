/**
 * Leaves notices for another party, in the transaction of what they tell of.
 */
import type { NoticeKind } from '../../domain/notices/notice.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertRows } from '../../store/rows/insert-rows.ts';
import { stamp, type Tools } from '../context.ts';

export interface Told {
  readonly partyId: string;
  readonly kind: NoticeKind;
  /** The lot, offer, agreement or advice that it is about. */
  readonly subjectId: string;
  /** The moment of what it tells of, where that was stamped before. */
  readonly at?: string;
}

export async function tell(tx: Transaction, tools: Tools, told: readonly Told[]): Promise<void> {
  const now = stamp(tools);
  await insertRows(tx, 'notice', {
    id: ['uuid', told.map(() => tools.newId())],
    party_id: ['uuid', told.map(({ partyId }) => partyId)],
    kind: ['text', told.map(({ kind }) => kind)],
    subject_id: ['uuid', told.map(({ subjectId }) => subjectId)],
    at: ['timestamptz', told.map(({ at = now }) => at)],
  });
}
