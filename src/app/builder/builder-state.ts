/**
 * The state of a formula on the page: the document itself, the file's text beside it, and what was taken away last, so
 * that it can be put back. Every change is a plain one from state to state.
 */
import type { JsonPath } from '../../domain/agreement/problem.ts';
import { type Draft, idOfPath, moved, removeAt, renameReference, writeAt } from './document-path.ts';

export interface BuilderState {
  readonly document: Draft;
  /** The file's text: the document's own, or what is being typed. */
  readonly text: string;
  /** Why the text is no document; the fields then still show the last one. */
  readonly textFault: string | undefined;
  /** A lasting number for each price line, so that a panel stays itself when lines move. */
  readonly termKeys: readonly number[];
  readonly nextKey: number;
  /** What was done last that took something away, and the document before it. */
  readonly undo: { readonly said: string; readonly before: Draft } | undefined;
  /** Said to who cannot see what moved. */
  readonly told: string;
  /** Where the keyboard goes on, once drawn. */
  readonly focus: { readonly id: string } | undefined;
  readonly isEdited: boolean;
}

export type Change =
  | {
      readonly kind: 'write';
      readonly path: JsonPath;
      readonly value: unknown;
      /** Where the keyboard goes on, where something new was added. */
      readonly next?: string | undefined;
    }
  | { readonly kind: 'remove'; readonly path: JsonPath; readonly said: string; readonly next: string }
  | { readonly kind: 'add-term'; readonly term: Draft }
  | { readonly kind: 'move-term'; readonly from: number; readonly to: number; readonly label: string }
  | { readonly kind: 'rename-reference'; readonly from: string; readonly to: string }
  | { readonly kind: 'type-text'; readonly text: string }
  | { readonly kind: 'replace'; readonly document: Draft; readonly said: string }
  | { readonly kind: 'undo' };

export function printDraft(document: Draft): string {
  return JSON.stringify(document, null, 2);
}

/** The state that a form begins with; a text that is no document is kept as it was typed. */
export function beginState(draft: Draft, text?: string): BuilderState {
  const read = text === undefined ? { document: draft } : readText(text);
  const document = 'document' in read ? read.document : draft;
  const isKept = 'fault' in read;
  return withKeys({
    document,
    text: isKept && text !== undefined ? text : printDraft(document),
    textFault: isKept ? read.fault : undefined,
    termKeys: [],
    nextKey: 0,
    undo: undefined,
    told: '',
    focus: undefined,
    isEdited: text !== undefined,
  });
}

/** A file's text as a document, or what is wrong with it. */
export function readText(text: string): { readonly document: Draft } | { readonly fault: string } {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
      return { document: value as Draft };
    }
    return { fault: 'must be a group in braces, { … }, as an agreement file is' };
  } catch (error) {
    return { fault: `is not JSON as it stands: ${error instanceof Error ? error.message : String(error)}` };
  }
}

export function changeState(state: BuilderState, change: Change): BuilderState {
  switch (change.kind) {
    case 'write': {
      const written = drawn(state, writeAt(state.document, change.path, change.value));
      return change.next === undefined ? written : { ...written, focus: { id: change.next } };
    }
    case 'remove': {
      const { path, said, next } = change;
      const index = path.length === 2 && path[0] === 'price' ? path[1] : undefined;
      return {
        ...drawn(state, removeAt(state.document, path)),
        termKeys: state.termKeys.filter((_, at) => at !== index),
        undo: { said, before: state.document },
        told: said,
        focus: { id: next },
      };
    }
    case 'add-term': {
      const count = termCount(state.document);
      return {
        ...drawn(state, writeAt(state.document, ['price', count], change.term)),
        told: `Line ${count + 1} is added.`,
        focus: { id: idOfPath(['price', count]) },
      };
    }
    case 'move-term': {
      const { from, to, label } = change;
      const price = state.document['price'];
      if (!Array.isArray(price)) return state;
      const termKeys = moved(state.termKeys, from, to);
      if (termKeys === state.termKeys) return state;
      return {
        ...drawn(state, { ...state.document, price: moved(price, from, to) }),
        termKeys,
        told: `${label} is line ${to + 1} now.`,
        focus: { id: idOfPath(['price', to]) },
      };
    }
    case 'rename-reference':
      return drawn(state, renameReference(state.document, change.from, change.to));
    case 'type-text': {
      const read = readText(change.text);
      if ('fault' in read)
        return { ...state, text: change.text, textFault: read.fault, isEdited: true, focus: undefined };
      return { ...drawn(state, read.document), text: change.text };
    }
    case 'replace':
      return {
        ...drawn(state, change.document),
        undo: { said: change.said, before: state.document },
        told: change.said,
      };
    case 'undo':
      return state.undo === undefined
        ? state
        : { ...drawn(state, state.undo.before), told: 'It is back as it was before.' };
  }
}

function drawn(state: BuilderState, document: Draft): BuilderState {
  return withKeys({
    ...state,
    document,
    text: printDraft(document),
    textFault: undefined,
    // Putting back would undo later changes as well.
    undo: undefined,
    told: '',
    focus: undefined,
    isEdited: true,
  });
}

function termCount(document: Draft): number {
  const price = document['price'];
  return Array.isArray(price) ? price.length : 0;
}

/** As many keys as there are price lines. */
function withKeys(state: BuilderState): BuilderState {
  const missing = termCount(state.document) - state.termKeys.length;
  if (missing === 0) return state;
  if (missing < 0) return { ...state, termKeys: state.termKeys.slice(0, missing) };
  const added = Array.from({ length: missing }, (_, index) => state.nextKey + index);
  return { ...state, termKeys: [...state.termKeys, ...added], nextKey: state.nextKey + missing };
}
