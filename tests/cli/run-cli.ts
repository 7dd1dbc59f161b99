/**
 * The command line in this process, with what it prints; and folders of files made for one test.
 */
import { mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { onTestFinished } from 'vitest';
import { run } from '../../src/cli/run.ts';
import { openTerminal } from '../../src/cli/terminal.ts';

export interface Ran {
  readonly status: number;
  readonly output: string;
  /** Lines on standard error. */
  readonly said: readonly string[];
}

export async function runCli(...args: readonly string[]): Promise<Ran> {
  const output: string[] = [];
  const errors: string[] = [];
  const status = await run(args, openTerminal(collector(output), collector(errors)));
  const said = errors.join('').split('\n');
  return { status, output: output.join(''), said: said.filter((line) => line !== '') };
}

function collector(into: string[]): Writable {
  return new Writable({
    write: (chunk, _, done) => {
      into.push(String(chunk));
      done();
    },
  });
}

/** A folder that is gone after the test; `undefined` leaves a file out. */
export async function folderOf(
  files: Readonly<Record<string, string | Uint8Array | undefined>>,
): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'huskledger-test-'));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  for (const [name, content] of Object.entries(files)) {
    if (content !== undefined) await writeFile(join(folder, name), content);
  }
  return folder;
}

export async function filesIn(folder: string): Promise<string[]> {
  return (await readdir(folder)).sort();
}
