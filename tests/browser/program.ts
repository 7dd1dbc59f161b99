/**
 * The built program as it runs for its users, on a port of its own, with a data folder that is thrown away.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const NEXT = join('node_modules', 'next', 'dist', 'bin', 'next');
const PATIENCE_MS = 60_000;

export interface Program {
  /** "http://localhost:41234" */
  readonly address: string;
  /** All that it has written so far. */
  readonly output: () => string;
  readonly stop: () => Promise<void>;
}

export async function buildProgram(): Promise<void> {
  const build = spawn(process.execPath, [NEXT, 'build'], { stdio: ['ignore', 'pipe', 'pipe'] });
  const output = outputOf(build);
  const [status] = await once(build, 'exit');
  if (status !== 0) throw new Error(`The program does not build:\n${output()}`);
}

export async function startProgram(
  dataFolder: string,
  variables: Readonly<Record<string, string>> = {},
): Promise<Program> {
  const port = await freePort();
  const program = spawn(process.execPath, [NEXT, 'start', '-p', String(port)], {
    env: {
      ...process.env,
      NODE_ENV: 'production',
      ...variables,
      PORT: String(port),
      HUSKLEDGER_DATA: dataFolder,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const output = outputOf(program);
  const address = `http://localhost:${port}`;
  await answers(program, { address, output });
  return {
    address,
    output,
    stop: async () => {
      if (program.exitCode !== null) return;
      program.kill('SIGTERM');
      await once(program, 'exit');
    },
  };
}

export async function newDataFolder(): Promise<{
  readonly path: string;
  readonly remove: () => Promise<void>;
}> {
  const path = await mkdtemp(join(tmpdir(), 'huskledger-pages-'));
  return { path, remove: () => rm(path, { recursive: true, force: true }) };
}

function outputOf(child: ChildProcess): () => string {
  let text = '';
  child.stdout?.on('data', (part: Buffer) => {
    text += part.toString();
  });
  child.stderr?.on('data', (part: Buffer) => {
    text += part.toString();
  });
  return () => text;
}

async function answers(
  program: ChildProcess,
  { address, output }: { readonly address: string; readonly output: () => string },
): Promise<void> {
  const deadline = Date.now() + PATIENCE_MS;
  while (Date.now() < deadline) {
    if (program.exitCode !== null) throw new Error(`The program ended:\n${output()}`);
    const answer = await fetch(`${address}/sign-in`, { redirect: 'manual' }).catch(() => undefined);
    if (answer && answer.status < 500) return;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  program.kill('SIGKILL');
  throw new Error(`The program does not answer:\n${output()}`);
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, () => {
      const place = server.address();
      const port = typeof place === 'object' && place ? place.port : 0;
      server.close(() => resolve(port));
    });
  });
}
