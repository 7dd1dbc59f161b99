/**
 * Faults in the words of an invoice that would make a wrong or unreadable paper, each with its place in the data.
 * Found before anything is drawn.
 */
import { type MissingCharacters, missingCharacters } from '../pdf/missing-characters.ts';
import type { Faces } from '../pdf/typeface.ts';
import type { InvoiceData } from './invoice-data.ts';

export type InvoiceProblem =
  | MissingCharacters
  | { readonly kind: 'vague-feed'; readonly place: string; readonly text: string; readonly message: string };

/** Every fault in the words of these invoices; empty when they can be printed. */
export function textProblems(invoices: readonly InvoiceData[], faces: Faces): InvoiceProblem[] {
  const vague = invoices.flatMap((invoice, index): InvoiceProblem[] => {
    if (invoice.feed.trim().toLowerCase() !== 'earlage') return [];
    const message =
      'The feed has to be named by the parts of the ear that are in it: the word alone means two feeds.';
    return [{ kind: 'vague-feed', place: `invoices[${index}].feed`, text: invoice.feed, message }];
  });
  return [...missingCharacters({ data: invoices, place: 'invoices' }, faces), ...vague];
}
