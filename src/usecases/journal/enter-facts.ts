/**
 * Enters facts in an agreement's journal, chained to what stands there. The agreement must be locked.
 */
import { chainEntries, type Entering } from '../../journal/chain.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertEntries, readChainHead } from '../../store/rows/journal-rows.ts';
import type { Recorded } from '../../store/rows/result-rows.ts';

export async function enterFacts(
  tx: Transaction,
  facts: readonly Entering[],
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  if (facts.length === 0) return;
  const stamp = { agreementId, postedAt: recordedAt, postedBy: recordedBy };
  const entries = chainEntries(await readChainHead(tx, agreementId), facts, stamp);
  await insertEntries(tx, entries, stamp);
}
