/**
 * A sealed season: its journal still has the root that both signed, and the statement is theirs.
 */
import type { ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import { sha256 } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readSeal, readSeasonClose } from '../../store/rows/season-close-rows.ts';
import { journalRoot } from '../season-close/journal-root.ts';

interface RowFault {
  readonly row: string;
  readonly message: string;
}

export async function checkSeal(tx: Transaction, agreementId: string): Promise<readonly RowFault[]> {
  const seal = await readSeal(tx, agreementId);
  if (!seal) return [];
  const row = `season_seal ${seal.closeId}`;
  const close = await readSeasonClose(tx, agreementId);
  const journal = await journalRoot(tx, agreementId);
  const faults: string[] = [];
  if (close?.id !== seal.closeId || sha256(close.statement) !== close.fingerprint) {
    faults.push('is over a statement that does not have its fingerprint');
  } else {
    const named = (JSON.parse(close.statement) as ClosingStatement).journal;
    if (named.root !== seal.root || named.entries !== String(seal.entryCount)) {
      faults.push('is not over the journal that the statement names');
    }
    if (close.signatures.length !== 2) faults.push('does not have the signatures of both parties');
  }
  if (journal.root !== seal.root || journal.entryCount !== seal.entryCount) {
    faults.push('does not fit the journal: an entry was changed, added or taken out since both signed');
  }
  return faults.map((message) => ({ row, message }));
}
