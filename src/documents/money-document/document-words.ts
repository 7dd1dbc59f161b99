/**
 * The sentences on a money document: who owes what by it, who drew it up, what it corrects, and whom to pay.
 */
import { documentName, type MoneyDocument } from '../../domain/money/money-document.ts';
import { signOf } from '../amount-strings.ts';

/** Notes change what is owed by another document; the others say what is owed. */
function isNote({ kind }: MoneyDocument): boolean {
  return kind === 'credit-note' || kind === 'debit-note';
}

/** What the amount to be paid means, as a label above it: "The buyer owes the seller". */
export function payableLabel(document: MoneyDocument): string {
  const sign = signOf(document.totals.payable);
  if (sign === 0) return isNote(document) ? 'Changes nothing that is owed' : 'Nothing is to be paid';
  if (isNote(document)) return sign < 0 ? 'Lowers what the buyer owes by' : 'Adds to what the buyer owes';
  return sign < 0 ? 'The seller owes the buyer' : 'The buyer owes the seller';
}

/** "due 2026-10-15"; empty where no day is named. */
export function dueText(document: MoneyDocument): string {
  return hasDueDate(document) ? `due ${document.dueOn}` : '';
}

/** The agreed day is the buyer's: a credit note asks for no payment, nor does a document by which the buyer owes nothing. */
export function hasDueDate({ kind, totals }: MoneyDocument): boolean {
  return kind !== 'credit-note' && signOf(totals.payable) > 0;
}

/**
 * Who drew it up where that is the buyer. The one word before the sentence is what Directive 2006/112/EC, article
 * 226 (10a), wants on such an invoice (from memory).
 */
export function selfBilling({ issuedBy, kind, buyer, seller }: MoneyDocument): string | undefined {
  if (issuedBy === 'seller') return undefined;
  const what = kind === 'credit-note' || kind === 'debit-note' ? 'note' : 'invoice';
  return `Self-billing: ${buyer}, the buyer, draws up this ${what} in the name of ${seller}, the seller, as they agreed.`;
}

/** "Invoice 17 of 2026-09-20, Invoice 18 of 2026-09-27". */
export function correctedNames({ corrects }: MoneyDocument): string {
  return corrects.map((named) => `${documentName(named)} of ${named.issuedOn}`).join(', ');
}

/** What a note does to what is owed, in a sentence; none for other kinds. */
export function noteEffect(document: MoneyDocument, amount: string): string | undefined {
  if (!isNote(document)) return undefined;
  const { buyer, seller, kind, totals } = document;
  const sign = signOf(totals.payable);
  const owes = `what ${buyer}, the buyer, owes ${seller}, the seller`;
  const effect =
    sign === 0
      ? `It changes nothing of ${owes}.`
      : sign < 0
        ? `It lowers ${owes}, by ${amount}.`
        : `It adds ${amount} to ${owes}.`;
  return kind === 'credit-note' ? `${effect} A credit note has no due date.` : effect;
}

/** "Quillback Acres and Sallowfen Farm Lending". */
function joined(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** To whom payment is made out where lenders have a lien; none where there are none. */
export function jointPayment({ jointPayees, seller, totals }: MoneyDocument): string | undefined {
  if (jointPayees.length === 0) return undefined;
  const all = joined([seller, ...jointPayees]);
  const notice = jointPayees.length === 1 ? 'A lien notice is recorded.' : 'Lien notices are recorded.';
  // A document that the buyer pays nothing on still says how its other payments are made out.
  const what = signOf(totals.payable) > 0 ? 'Make payment' : 'Payments for this feed are made';
  return `${what} out to ${all} together. ${notice}`;
}
