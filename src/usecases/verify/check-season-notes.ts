/**
 * Money that takes up a sealed season, held against what both sides signed and agreed to: the balance of the closing
 * statement, or the note that the other side confirmed.
 */
import { sumOf } from '../../documents/amount-strings.ts';
import type { ClosingStatement } from '../../domain/season-close/closing-statement.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { StandingRows } from '../../store/rows/audit-rows.ts';
import type { DocumentRow } from '../../store/rows/money/document-rows.ts';
import { readSeal, readSeasonClose } from '../../store/rows/season-close-rows.ts';

type RowFault = { readonly row: string; readonly message: string };

export async function checkSeasonNotes(
  tx: Transaction,
  { money, seasonNotes }: Pick<StandingRows, 'money' | 'seasonNotes'>,
): Promise<RowFault[]> {
  const faults: RowFault[] = [];
  const brought = new Map<string, DocumentRow[]>();
  for (const document of money.documents) {
    const { seasonRule, ofAgreement } = document.fact;
    if (ofAgreement === undefined) continue;
    if (seasonRule === 'brought-forward') {
      brought.set(ofAgreement, [...(brought.get(ofAgreement) ?? []), document]);
      continue;
    }
    const message = oddAgreement(document, seasonNotes);
    if (message !== undefined) faults.push({ row: `money_document ${document.id}`, message });
  }
  for (const [ofAgreement, documents] of brought) {
    const message = await oddBalance(tx, documents, ofAgreement);
    // One figure is wrong, and nobody can say of which note: all are named.
    if (message !== undefined) {
      faults.push(...documents.map(({ id }) => ({ row: `money_document ${id}`, message })));
    }
  }
  return faults;
}

async function oddBalance(
  tx: Transaction,
  documents: readonly DocumentRow[],
  ofAgreement: string,
): Promise<string | undefined> {
  const close = (await readSeal(tx, ofAgreement)) && (await readSeasonClose(tx, ofAgreement));
  if (!close) return 'brings forward a season that is not sealed';
  const { balance } = (JSON.parse(close.statement) as ClosingStatement).money;
  const sum = sumOf(documents.map(({ fact }) => fact.payable));
  return sum === balance ? undefined : `brings forward ${sum} in all; both sides signed ${balance}`;
}

function oddAgreement(
  { id, fact }: DocumentRow,
  { notes, answers }: StandingRows['seasonNotes'],
): string | undefined {
  const answer = answers.find((row) => row.fact.document === id && row.fact.answer === 'confirmed');
  const note = answer && notes.find((row) => row.id === answer.fact.note);
  if (!note) return 'is for a sealed season, and no note that both agreed to says so';
  return note.fact.amount === fact.payable && note.fact.ofAgreement === fact.ofAgreement
    ? undefined
    : `comes to ${fact.payable}; both sides agreed to ${note.fact.amount}`;
}
