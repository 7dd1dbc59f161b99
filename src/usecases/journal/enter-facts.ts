/**
 * Enters facts in an agreement's journal, chained to what stands there. The agreement must be locked. Refuses `season-closed`
 * once both parties have signed the season shut.
 */
import { chainEntries, type Entering } from '../../journal/chain.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertEntries, readChainHead } from '../../store/rows/journal-rows.ts';
import type { Recorded } from '../../store/rows/result-rows.ts';
import { isSealed } from '../../store/rows/season-close-rows.ts';
import { Refusal } from '../refusal.ts';

export async function enterFacts(
  tx: Transaction,
  facts: readonly Entering[],
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  if (facts.length === 0) return;
  if (await isSealed(tx, agreementId)) {
    throw new Refusal(
      'season-closed',
      'The season of this agreement is signed shut, and nothing is recorded in it any more. What comes later belongs to your next agreement.',
    );
  }
  const stamp = { agreementId, postedAt: recordedAt, postedBy: recordedBy };
  const entries = chainEntries(await readChainHead(tx, agreementId), facts, stamp);
  await insertEntries(tx, entries, stamp);
}
