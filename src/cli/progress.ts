/**
 * A progress bar for work that takes more than two seconds, on a terminal that somebody watches, and nowhere else.
 */
import type { Terminal } from './terminal.ts';

const PATIENCE_MS = 2_000;
const REDRAW_MS = 200;
const BAR_CELLS = 24;

export interface Progress {
  /** `total` undefined while it is not known yet. */
  readonly report: (what: string, done: number, total?: number) => void;
  /** Takes the bar away. */
  readonly end: () => void;
}

export function startProgress({ watched }: Terminal, now: () => number): Progress {
  if (!watched) return { report: () => {}, end: () => {} };
  const started = now();
  let drawn = 0;
  return {
    report: (what, done, total) => {
      const time = now();
      if (time - started < PATIENCE_MS || time - drawn < REDRAW_MS) return;
      drawn = time;
      watched.write(`\r\u001b[K${drawBar(what, done, total)}`);
    },
    end: () => {
      if (drawn > 0) watched.write('\r\u001b[K');
    },
  };
}

function drawBar(what: string, done: number, total: number | undefined): string {
  const count = done.toLocaleString('en-US');
  if (total === undefined || total === 0) return `${what} ${count} loads`;
  const filled = Math.floor((BAR_CELLS * done) / total);
  const percent = Math.floor((100 * done) / total);
  return `${what} [${'#'.repeat(filled)}${'.'.repeat(BAR_CELLS - filled)}] ${percent} %, ${count} loads`;
}
