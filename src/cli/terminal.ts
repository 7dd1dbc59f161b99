/**
 * What a command may do with the terminal: write to standard output with back-pressure, speak on standard error.
 */
import { once } from 'node:events';
import type { Writable } from 'node:stream';

export interface Terminal {
  /** Adds to standard output; true once so much is pending that it should be flushed. */
  readonly add: (text: string) => boolean;
  /** Hands on what is pending. Resolves once there is room for more. */
  readonly flush: () => Promise<void>;
  /** `add` and, where due, `flush`. */
  readonly write: (text: string) => Promise<void>;
  /** One line on standard error. */
  readonly say: (line: string) => void;
  /** Standard error, where it is a terminal that a person watches. */
  readonly watched: (Writable & { readonly columns?: number }) | undefined;
  /** How the reader's system writes numbers. */
  readonly locale: () => string;
}

/** Text is handed on in pieces of this size, since a write for every load would take longer than settling it. */
const PIECE_CHARACTERS = 1 << 16;

/** A terminal over two streams: standard output and standard error, or a test's own. */
export function openTerminal(output: Writable, errors: Writable & { isTTY?: boolean }): Terminal {
  let pending: string[] = [];
  let length = 0;
  const flush = async (): Promise<void> => {
    if (length === 0) return;
    const text = pending.join('');
    pending = [];
    length = 0;
    if (!output.write(text)) await once(output, 'drain');
  };
  const add = (text: string): boolean => {
    pending.push(text);
    length += text.length;
    return length >= PIECE_CHARACTERS;
  };
  return {
    add,
    flush,
    write: async (text) => {
      if (add(text)) await flush();
    },
    say: (line) => {
      errors.write(`${line}\n`);
    },
    watched: errors.isTTY ? errors : undefined,
    locale: () => new Intl.NumberFormat().resolvedOptions().locale,
  };
}
