/**
 * Checks the whole record, agreement by agreement: the journal's chain, every row against what the journal remembers of
 * it, every settlement, decision and note about the season worked out anew, and every balance. Names each row that does not fit.
 */
import type { Transaction } from '../../store/open-store.ts';
import {
  readAgreementIds,
  readEntries,
  readMiscounted,
  readOddBalances,
  readStandingRows,
  readUnenteredRows,
} from '../../store/rows/audit-rows.ts';
import { readOddFiles } from '../../store/rows/file-rows.ts';
import { readAgreementBalances } from '../../store/rows/journal-rows.ts';
import { readPrintedDocuments } from '../../store/rows/money/document-rows.ts';
import type { Tools } from '../context.ts';
import { checkMoney } from './check-money.ts';
import { checkRetests } from './check-retests.ts';
import { checkSeal } from './check-seal.ts';
import { checkSeasonNotes } from './check-season-notes.ts';
import { checkSeasonRules } from './check-season-rules.ts';
import { checkSettlements } from './check-settlements.ts';
import { rememberedFacts } from './remembered-facts.ts';
import { type ChainWalk, walkEntry } from './walk-chain.ts';

/** Something that does not fit, and where. */
export interface Fault {
  /** The agreement's number, or its id where it has none that can be read. */
  readonly agreement: string;
  /** "load 0198…", "journal entry 12", "account buyer-owes-seller in USD". */
  readonly row: string;
  readonly message: string;
}

export interface Verified {
  readonly agreements: number;
  readonly entries: number;
  readonly settlements: number;
  readonly faults: readonly Fault[];
}

const ENTRIES_AT_ONCE = 2_000;

export interface ToVerify {
  /** One agreement; without it, all. */
  readonly agreementId?: string;
  /** Told how many entries have been walked. */
  readonly onEntries?: (count: number) => void;
}

export async function verifyRecord(
  tools: Tools,
  { agreementId, onEntries = () => {} }: ToVerify = {},
): Promise<Verified> {
  const ids = agreementId === undefined ? await tools.store.forAudit(readAgreementIds) : [agreementId];
  let entries = 0;
  let settlements = 0;
  const faults: Fault[] = [];
  for (const id of ids) {
    // One transaction an agreement sees it as it stood at one moment.
    await tools.store.forAudit(async (tx) => {
      const checked = await verifyAgreement(tx, id, (count) => onEntries(entries + count));
      entries += checked.entries;
      settlements += checked.settlements;
      faults.push(...checked.faults);
    });
  }
  return { agreements: ids.length, entries, settlements, faults };
}

async function verifyAgreement(
  tx: Transaction,
  id: string,
  onEntries: (count: number) => void,
): Promise<Omit<Verified, 'agreements'>> {
  const rows = await readStandingRows(tx, id);
  const agreement = rows?.agreement.number ?? id;
  if (!rows) {
    const fault = {
      agreement,
      row: `agreement ${id}`,
      message: 'has no version that can be read, or a party of it is gone',
    };
    return { entries: 0, settlements: 0, faults: [fault] };
  }
  const faults: Omit<Fault, 'agreement'>[] = [];
  const facts = rememberedFacts(rows);
  let walk: ChainWalk = { sequence: 0, fingerprint: '0'.repeat(64) };
  const met = new Set<string>();
  for (;;) {
    const batch = await readEntries(tx, id, { after: walk.sequence, count: ENTRIES_AT_ONCE });
    for (const entry of batch) {
      const walked = walkEntry(walk, entry, { agreementId: id, facts, met });
      faults.push(...walked.faults);
      walk = walked.walk;
    }
    onEntries(walk.sequence);
    if (batch.length < ENTRIES_AT_ONCE) break;
  }
  for (const { table, id: row } of await readUnenteredRows(tx, id)) {
    faults.push({
      row: `${table} ${row}`,
      message:
        'has no entry in the journal, or was recorded at another moment or by another person than its entry says',
    });
  }
  for (const { table, id: of } of await readMiscounted(tx, id)) {
    faults.push({ row: `${table} of ${of}`, message: 'are not counted from the first without a gap' });
  }
  faults.push(...checkSettlements(rows));
  faults.push(
    ...checkMoney({
      rows,
      balances: await readAgreementBalances(tx, id),
      printed: await readPrintedDocuments(tx, id),
    }),
  );
  faults.push(...(await checkRetests(tx, rows)));
  faults.push(...(await checkSeasonNotes(tx, rows)));
  faults.push(...(await checkSeasonRules(tx, rows)));
  faults.push(...(await checkSeal(tx, id)));
  for (const { fingerprint, isThere } of await readOddFiles(tx, id)) {
    faults.push({
      row: `record_file ${fingerprint}`,
      message: isThere ? 'does not have the fingerprint of its bytes' : 'is named by a row and is not there',
    });
  }
  for (const { account, unit, balance, posted } of await readOddBalances(tx, id)) {
    faults.push({
      row: `account ${account} in ${unit}`,
      message: `stands at ${balance ?? 'nothing'}; its postings sum to ${posted ?? 'nothing'}`,
    });
  }
  return {
    entries: walk.sequence,
    settlements: rows.settlements.length,
    faults: faults.map((fault) => ({ agreement, ...fault })),
  };
}
