/**
 * Time and peak memory of whole processes.
 */
import { spawn } from 'node:child_process';
import { readFile } from 'node:fs/promises';

export interface Measured {
  readonly seconds: number;
  /** Undefined where the system does not say. */
  readonly peakMegabytes: number | undefined;
  /** What it said on standard error. */
  readonly said: string;
}

const WATCH_EVERY_MS = 20;

/** Runs `node ARGS` with its output thrown away. Throws where it ends otherwise than expected. */
export async function measureProcess(args: readonly string[], expectedStatus = 0): Promise<Measured> {
  const started = performance.now();
  const child = spawn(process.execPath, [...args], { stdio: ['ignore', 'ignore', 'pipe'] });
  let said = '';
  child.stderr.on('data', (text: Buffer) => {
    said += text.toString();
  });
  let peakMegabytes: number | undefined;
  const watch = setInterval(async () => {
    peakMegabytes = (await peakOf(child.pid)) ?? peakMegabytes;
  }, WATCH_EVERY_MS);
  const status = await new Promise<number | null>((resolve) => child.on('exit', resolve));
  const seconds = (performance.now() - started) / 1000;
  clearInterval(watch);
  if (status !== expectedStatus) throw new Error(`node ${args.join(' ')} ended with ${status}: ${said}`);
  return { seconds, peakMegabytes, said };
}

/** Linux keeps the high-water mark of a process's memory. */
async function peakOf(pid: number | undefined): Promise<number | undefined> {
  const status = await readFile(`/proc/${pid}/status`, 'utf8').catch(() => '');
  const kilobytes = /VmHWM:\s+(\d+)/.exec(status)?.[1];
  return kilobytes === undefined ? undefined : Number(kilobytes) / 1024;
}

/** The run in the middle of several, by time. */
export async function medianProcess(runs: number, args: readonly string[]): Promise<Measured> {
  const measured: Measured[] = [];
  for (let run = 0; run < runs; run++) measured.push(await measureProcess(args));
  const sorted = measured.sort((a, b) => a.seconds - b.seconds);
  const middle = sorted[Math.floor(runs / 2)];
  if (!middle) throw new RangeError('At least one run');
  return middle;
}
