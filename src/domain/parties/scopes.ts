/**
 * What a program that acts for a party may be let do: each scope names one kind of record, to read or to write. Whatever
 * binds a party or changes who is in it is in no scope.
 */
import type { Verb } from './permissions.ts';

export const SCOPES = [
  'loads:read',
  'loads:write',
  'samples:read',
  'samples:write',
  'results:read',
  'results:write',
  'quotes:read',
  'quotes:write',
  'settlements:read',
  'settlements:write',
] as const;
export type Scope = (typeof SCOPES)[number];

export const READING: readonly Scope[] = SCOPES.filter((scope) => scope.endsWith(':read'));

/** What each scope lets a program do, to complete "It may …". */
export const SCOPE_NAMES: Readonly<Record<Scope, string>> = {
  'loads:read': 'read loads, tickets and what waits',
  'loads:write': 'record loads and put tickets right',
  'samples:read': 'read samples and their sealed parts',
  'samples:write': 'record samples, seals and hand-overs',
  'results:read': 'read results',
  'results:write': 'record results and put them right',
  'quotes:read': 'read price quotes',
  'quotes:write': 'record price quotes and put them right',
  'settlements:read': 'read settlements and corrections',
  'settlements:write': 'settle loads, decide about loads, name pricing dates and answer corrections',
};

/** The scopes of which any one lets a verb be done; none, and only a person may. */
const LETS: Readonly<Record<Verb, readonly Scope[]>> = {
  read: READING,
  'record-agreement': [],
  'record-load': ['loads:write'],
  'take-sample': ['samples:write'],
  'record-result': ['results:write'],
  'record-quote': ['quotes:write'],
  'record-election': ['settlements:write'],
  'record-choice': ['settlements:write'],
  settle: ['settlements:write'],
  correct: ['loads:write', 'results:write', 'quotes:write', 'settlements:write'],
  'issue-invoice': [],
  'record-payment': [],
  'question-amount': [],
  question: [],
  'keep-lien': [],
  'keep-account': [],
  'keep-scale': [],
  'keep-silo': [],
  'keep-lot': [],
  'make-offer': [],
  sign: [],
  advise: [],
  invite: [],
  'keep-token': [],
  'end-membership': [],
};

/** Whether a program with these scopes may do it at all; an operation may ask for a narrower one. */
export function scopesLet(scopes: readonly Scope[], verb: Verb): boolean {
  return LETS[verb].some((scope) => scopes.includes(scope));
}

/** The scopes among some words, in the order of `SCOPES`, each once. */
export function scopesAmong(words: readonly string[]): readonly Scope[] {
  return SCOPES.filter((scope) => words.includes(scope));
}
