/**
 * A progress bar for work that takes more than two seconds, on a terminal that somebody watches, and nowhere else.
 */
import type { Terminal } from './terminal.ts';

const PATIENCE_MS = 2_000;
const REDRAW_MS = 200;
const BAR_CELLS = 24;

export interface Step {
  /** "Settling" */
  readonly doing: string;
  readonly done: number;
  /** Undefined while it is not known yet. */
  readonly of?: number;
  /** "loads" */
  readonly unit: string;
}

export interface Progress {
  readonly report: (step: Step) => void;
  /** Takes the bar away. */
  readonly end: () => void;
}

/** A bar for one command. `now` gives milliseconds; without a watched terminal nothing is ever drawn. */
export function startProgress({ watched }: Terminal, now: () => number): Progress {
  if (!watched) return { report: () => {}, end: () => {} };
  const started = now();
  let drawn = 0;
  return {
    report: (step) => {
      const time = now();
      if (time - started < PATIENCE_MS || time - drawn < REDRAW_MS) return;
      drawn = time;
      watched.write(`\r\u001b[K${drawBar(step)}`);
    },
    end: () => {
      if (drawn > 0) watched.write('\r\u001b[K');
    },
  };
}

function drawBar({ doing, done, of, unit }: Step): string {
  const count = `${done.toLocaleString('en-US')} ${unit}`;
  if (of === undefined || of === 0) return `${doing} ${count}`;
  const filled = Math.floor((BAR_CELLS * done) / of);
  const percent = Math.floor((100 * done) / of);
  return `${doing} [${'#'.repeat(filled)}${'.'.repeat(BAR_CELLS - filled)}] ${percent} %, ${count}`;
}
