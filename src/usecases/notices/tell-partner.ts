/**
 * Tells the other party of an agreement, in the transaction of what it tells of.
 */
import type { NoticeKind } from '../../domain/notices/notice.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { tell } from './tell.ts';

export async function tellPartner(
  tx: Transaction,
  context: Context,
  { found: { row }, kind }: { readonly found: Pick<FoundAgreement, 'row'>; readonly kind: NoticeKind },
): Promise<void> {
  const partyId = row.sellerId === context.caller.partyId ? row.buyerId : row.sellerId;
  await tell(tx, context, [{ partyId, kind, subjectId: row.id }]);
}
