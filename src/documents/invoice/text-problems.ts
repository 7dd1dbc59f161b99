/**
 * Faults in the words of an invoice that would make a wrong or unreadable paper, each with its place in the data.
 * Found before anything is drawn, so that a name is never printed with a letter missing.
 */
import type { Faces } from '../pdf/typeface.ts';
import type { InvoiceData } from './invoice-data.ts';

export type InvoiceProblem =
  | {
      readonly kind: 'missing-characters';
      /** Such as "invoices[0].loads[2].truck". */
      readonly place: string;
      readonly text: string;
      /** Each once, in the order met. */
      readonly characters: readonly string[];
      readonly message: string;
    }
  | { readonly kind: 'vague-feed'; readonly place: string; readonly text: string; readonly message: string };

function* textsOf(value: unknown, place: string): Generator<{ place: string; text: string }> {
  if (typeof value === 'string') {
    yield { place, text: value };
  } else if (Array.isArray(value)) {
    for (const [index, item] of value.entries()) yield* textsOf(item, `${place}[${index}]`);
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, item] of Object.entries(value))
      yield* textsOf(item, place === '' ? key : `${place}.${key}`);
  }
}

function codeName(character: string): string {
  return `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
}

/** All characters in these invoices that one of the two weights lacks. */
function missingCharacters(invoices: readonly InvoiceData[], faces: Faces): InvoiceProblem[] {
  const problems: InvoiceProblem[] = [];
  const complete = new Set<string>();
  for (const { place, text } of textsOf(invoices, 'invoices')) {
    if (complete.has(text)) continue;
    const characters = [...new Set([...faces.regular.lacking(text), ...faces.semibold.lacking(text)])];
    if (characters.length === 0) {
      complete.add(text);
      continue;
    }
    const names = characters.map((character) => `“${character}” (${codeName(character)})`).join(', ');
    const message = `The document’s font cannot print ${names} in “${text}”.`;
    problems.push({ kind: 'missing-characters', place, text, characters, message });
  }
  return problems;
}

/** Every fault in the words of these invoices; empty when they can be printed. */
export function textProblems(invoices: readonly InvoiceData[], faces: Faces): InvoiceProblem[] {
  const vague = invoices.flatMap((invoice, index): InvoiceProblem[] => {
    if (invoice.feed.trim().toLowerCase() !== 'earlage') return [];
    const message =
      'The feed has to be named by the parts of the ear that are in it: the word alone means two feeds.';
    return [{ kind: 'vague-feed', place: `invoices[${index}].feed`, text: invoice.feed, message }];
  });
  return [...missingCharacters(invoices, faces), ...vague];
}
