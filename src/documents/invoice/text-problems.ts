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

/** The one word that names no feed, since it means two; none where the feed is named by its parts. */
export function vagueFeed(feed: string, place: string): InvoiceProblem[] {
  if (feed.trim().toLowerCase() !== 'earlage') return [];
  const message =
    'The feed has to be named by the parts of the ear that are in it: the word alone means two feeds.';
  return [{ kind: 'vague-feed', place, text: feed, message }];
}

/** Every fault in the words of these invoices; empty when they can be printed. */
export function textProblems(invoices: readonly InvoiceData[], faces: Faces): InvoiceProblem[] {
  const vague = invoices.flatMap(({ feed }, index) => vagueFeed(feed, `invoices[${index}].feed`));
  return [...missingCharacters({ data: invoices, place: 'invoices' }, faces), ...vague];
}
