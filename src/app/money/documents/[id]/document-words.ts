/**
 * What a document says and how it stands, in sentences that both sides read alike.
 */
import { signOf, unsigned } from '../../../../documents/amount-strings.ts';
import type { Figures } from '../../../../documents/figures.ts';
import { hasDueDate, noteEffect } from '../../../../documents/money-document/document-words.ts';
import type { MoneyDocument } from '../../../../domain/money/money-document.ts';
import type { DocumentView } from '../../../../usecases/money/read-document.ts';

/** "Tarn Hollow Dairy owes Quillback Acres 1,000.00 USD by this invoice, due 2026-12-05." */
export function owedByIt(document: MoneyDocument, figures: Figures): string {
  const { buyer, seller, totals, currency } = document;
  const amount = `${figures.show(unsigned(totals.payable))} ${currency}`;
  const note = noteEffect(document, amount);
  if (note !== undefined) return note;
  const due = hasDueDate(document) ? `, due ${document.dueOn}` : '';
  switch (signOf(totals.payable)) {
    case 1:
      return `By this document ${buyer} owes ${seller} ${amount}${due}.`;
    case -1:
      return `By this document ${seller} owes ${buyer} ${amount}.`;
    case 0:
      return 'Nothing is to be paid by this document.';
  }
}

/** How it stands now: what is open, due and late, and what is held. */
export function standingWords(view: DocumentView, figures: Figures): readonly string[] {
  const { document, open, due, held, daysLate } = view;
  const money = (amount: string) => `${figures.show(unsigned(amount))} ${document.currency}`;
  // A note stands in the document that it changes.
  if (signOf(document.totals.payable) < 0) return [];
  if (signOf(open) === 0) return ['Nothing of it is open any more.'];
  if (signOf(open) < 0) return [`${money(open)} more was settled on it than it asks for.`];
  const isAll = open === document.totals.payable;
  const isHeld = signOf(held) !== 0;
  return [
    isAll ? 'Nothing of it is paid yet.' : `${money(open)} of it is open still.`,
    ...(isHeld ? [`${money(held)} is held while it is questioned, and not due.`] : []),
    ...(signOf(due) <= 0 ? [] : [dueWords(view, `${isHeld ? money(due) : 'It'} is`, daysLate)]),
  ];
}

function dueWords({ document }: DocumentView, what: string, daysLate: number): string {
  if (daysLate === 0) return `${what} due on ${document.dueOn}.`;
  const late = daysLate === 1 ? 'one day late' : `${daysLate} days late`;
  return `${what} ${late}: it was due on ${document.dueOn}.`;
}
