/**
 * One hash over an agreement's whole journal, entry by entry, as it stands.
 */
import { leafHash, rootOfHashes } from '../../journal/merkle.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readEntries } from '../../store/rows/audit-rows.ts';

export interface JournalRoot {
  readonly entryCount: number;
  /** RFC 6962 over the entries' documents, UTF-8, in their order; 64 hexadecimal digits. */
  readonly root: string;
  /** Of the last entry in the chain; 64 zeros before the first. */
  readonly head: string;
}

const AT_ONCE = 2000;

export async function journalRoot(tx: Transaction, agreementId: string): Promise<JournalRoot> {
  const hashes: Uint8Array[] = [];
  let head = '0'.repeat(64);
  for (let after = 0; ; ) {
    const entries = await readEntries(tx, agreementId, { after, count: AT_ONCE });
    for (const { document, fingerprint, sequence } of entries) {
      hashes.push(leafHash(Buffer.from(document, 'utf8')));
      [head, after] = [fingerprint, sequence];
    }
    if (entries.length < AT_ONCE) break;
  }
  return { entryCount: hashes.length, root: rootOfHashes(hashes), head };
}
