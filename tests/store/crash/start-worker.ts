/**
 * Starts a worker process and listens to what it says.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Errand, Said } from './said.ts';

export interface Worker {
  /** Everything that it has said so far. */
  readonly said: readonly Said[];
  /** Waits for a line of the kind, after the first `after` lines. Throws where it ends first, or after a minute. */
  readonly hear: <Kind extends Said['said']>(kind: Kind, after?: number) => Promise<SaidOf<Kind>>;
  readonly tell: (text: string) => void;
  /** Lets it end by itself: its exit status, and what it wrote on standard error. */
  readonly finish: () => Promise<{ readonly status: number | null; readonly errors: string }>;
  /** `kill -9`. */
  readonly kill: () => Promise<void>;
  readonly signal: (name: 'SIGSTOP' | 'SIGCONT') => void;
}
type SaidOf<Kind extends Said['said']> = Extract<Said, { said: Kind }>;

const HEAR_MS = 60_000;

export function startWorker(program: string, errand: Errand): Worker {
  const path = join(mkdtempSync(join(dirname(program), 'errand-')), 'errand.json');
  writeFileSync(path, JSON.stringify(errand));
  const child = spawn(process.execPath, [program, path], { stdio: ['pipe', 'pipe', 'pipe'] });
  const said: Said[] = [];
  let [errors, unfinished, over] = ['', '', false];
  child.stderr.on('data', (text: Buffer) => {
    // The end says what it was; before it may stand a whole minified line.
    errors = (errors + text.toString()).slice(-2_000);
  });
  // Whoever is killed no longer reads what it is told.
  child.stdin.on('error', () => {});
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    const lines = (unfinished + text).split('\n');
    // A line that was cut off by a kill was not said.
    unfinished = lines.pop() ?? '';
    said.push(...lines.map((line) => JSON.parse(line) as Said));
  });
  const closed = new Promise<void>((resolve) => {
    child.once('close', () => {
      over = true;
      resolve();
    });
  });
  return {
    said,
    hear: async (kind, after = 0) => {
      const deadline = performance.now() + HEAR_MS;
      for (;;) {
        const line = said.slice(after).find((candidate) => candidate.said === kind);
        if (line) return line as SaidOf<typeof kind>;
        const last = `its last words: ${JSON.stringify(said.at(-1))} ${errors}`;
        if (over) throw new Error(`The worker ended before it said "${kind}"; ${last}`);
        if (performance.now() > deadline) throw new Error(`The worker does not say "${kind}"; ${last}`);
        await pause(5);
      }
    },
    tell: (text) => child.stdin.write(text),
    finish: async () => {
      child.stdin.end();
      await closed;
      return { status: child.exitCode, errors };
    },
    kill: async () => {
      child.kill('SIGKILL');
      await closed;
    },
    signal: (name) => child.kill(name),
  };
}
