/**
 * How one kind of sentence of a story is read: what it looks like, and what is taken from it.
 */
import { type LocalDate, parseLocalDate } from '../src/domain/dates/local-date.ts';

export const FIGURE = String.raw`\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?`;
export const DAY = String.raw`\d{4}-\d\d-\d\d`;

/** What a sentence's named groups hold. */
export type Said = Readonly<Record<string, string | undefined>>;

export interface Phrase<Act> {
  /** An example, for whoever wrote something else. */
  readonly like: string;
  readonly pattern: RegExp;
  /** Undefined where a day is none. */
  readonly act: (said: Said) => Act | undefined;
}

/** A phrase that must match all of what was done. */
export function phrase<Act>(like: string, pattern: string, act: Phrase<Act>['act']): Phrase<Act> {
  return { like, pattern: new RegExp(`^(?:${pattern})$`), act };
}

/** The act of a day; undefined where it is not on the calendar. */
export function dated<Act>(day: string | undefined, act: (day: LocalDate) => Act): Act | undefined {
  const read = parseLocalDate(day ?? '');
  return read && act(read);
}

/** What was said; empty where nothing was. */
export function text(said: string | undefined): string {
  return said ?? '';
}

/** A figure without its commas. */
export function figure(said: string | undefined): string {
  return text(said).replaceAll(',', '');
}
