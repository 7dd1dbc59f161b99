/**
 * Leaves notices for another party, in the transaction of what they tell of.
 */
import type { NoticeKind } from '../../domain/notices/notice.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertRows } from '../../store/rows/insert-rows.ts';
import { type Context, stamp } from '../context.ts';

export interface Told {
  readonly partyId: string;
  readonly kind: NoticeKind;
  /** The lot, offer, agreement or advice that it is about. */
  readonly subjectId: string;
}

export async function tell(tx: Transaction, context: Context, told: readonly Told[]): Promise<void> {
  const at = stamp(context);
  await insertRows(tx, 'notice', {
    id: ['uuid', told.map(() => context.newId())],
    party_id: ['uuid', told.map(({ partyId }) => partyId)],
    kind: ['text', told.map(({ kind }) => kind)],
    subject_id: ['uuid', told.map(({ subjectId }) => subjectId)],
    at: ['timestamptz', told.map(() => at)],
  });
}
