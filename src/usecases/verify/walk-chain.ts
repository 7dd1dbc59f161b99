/**
 * One step along an agreement's chain: the entry follows the one before, its fingerprint is its own, its columns and
 * postings are what its document says, and the row that it is about stands as it is remembered.
 */
import { type ChainHead, entryFingerprint } from '../../journal/chain.ts';
import type { Fact } from '../../journal/facts.ts';
import { canonicalText } from '../../journal/fingerprint.ts';
import type { EntryRow } from '../../store/rows/audit-rows.ts';

/** Where the walk stands. */
export type ChainWalk = ChainHead;

type RowFault = { readonly row: string; readonly message: string };

export interface WalkSetting {
  readonly agreementId: string;
  readonly facts: ReadonlyMap<string, Fact>;
  /** The rows that entries were about so far. */
  readonly met: Set<string>;
}

export function walkEntry(
  before: ChainWalk,
  entry: EntryRow,
  setting: WalkSetting,
): { readonly walk: ChainWalk; readonly faults: readonly RowFault[] } {
  const row = `journal entry ${entry.sequence}`;
  const faults: RowFault[] = [];
  if (entry.sequence !== before.sequence + 1) {
    faults.push({ row, message: `follows entry ${before.sequence}; an entry between them is gone` });
  }
  if (entry.previous !== before.fingerprint) {
    faults.push({ row, message: 'does not carry the fingerprint of the entry before it' });
  }
  if (entry.fingerprint !== entryFingerprint(entry.previous, entry.document)) {
    faults.push({ row, message: 'does not have the fingerprint of what stands in it' });
  }
  faults.push(...checkDocument(row, entry, setting));
  return { walk: { sequence: entry.sequence, fingerprint: entry.fingerprint }, faults };
}

function checkDocument(row: string, entry: EntryRow, { agreementId, facts, met }: WalkSetting): RowFault[] {
  const document = parsed(entry.document);
  if (!document) return [{ row, message: 'does not hold a document' }];
  const said = { ...document, fact: null };
  const standing = {
    agreement: agreementId,
    sequence: String(entry.sequence),
    kind: entry.kind,
    subject: entry.subjectId,
    postedAt: entry.postedAt,
    postedBy: entry.postedBy,
    postings: entry.postings,
    fact: null,
  };
  const faults: RowFault[] = [];
  if (canonicalText(said) !== canonicalText(standing)) {
    faults.push({ row, message: `does not stand as its document says: ${difference(said, standing)}` });
  }
  if (met.has(entry.subjectId))
    faults.push({ row, message: 'is about a row that an earlier entry is about' });
  met.add(entry.subjectId);
  const fact = facts.get(entry.subjectId);
  const name = nameOf(entry, asGroup(document['fact']));
  if (!fact || fact.kind !== entry.kind) {
    faults.push({ row: name, message: `is gone; ${row} remembers it` });
  } else if (canonicalText(document['fact']) !== canonicalText(fact.fact)) {
    const told = difference(asGroup(document['fact']), { ...fact.fact });
    faults.push({ row: name, message: `is not as ${row} remembers it: ${told}` });
  }
  return faults;
}

/** "load T1 (0198…)": what people call it, and what the database does. */
function nameOf({ kind, subjectId }: EntryRow, fact: Record<string, unknown>): string {
  const called = fact['ticket'] ?? (kind === 'result' ? fact['sample'] : undefined);
  return typeof called === 'string' ? `${kind} ${called} (${subjectId})` : `${kind} ${subjectId}`;
}

function parsed(document: string): Record<string, unknown> | undefined {
  try {
    const value: unknown = JSON.parse(document);
    return typeof value === 'object' && value !== null ? asGroup(value) : undefined;
  } catch {
    return undefined;
  }
}

function asGroup(value: unknown): Record<string, unknown> {
  return typeof value === 'object' && value !== null ? { ...value } : {};
}

/** "gross is 78230, was 78220", for the first key that differs. */
function difference(was: Record<string, unknown>, is: Record<string, unknown>): string {
  const keys = new Set([...Object.keys(was), ...Object.keys(is)]);
  for (const key of keys) {
    const [before, now] = [JSON.stringify(was[key]) ?? 'nothing', JSON.stringify(is[key]) ?? 'nothing'];
    if (before !== now) return `${key} is ${now}, was ${before}`;
  }
  return 'its keys stand in another order';
}
