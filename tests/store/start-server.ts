/**
 * A PostgreSQL server of the tests' own, in a temporary folder, on a Unix socket in it. It listens on no port, and ends
 * with the test that started it. PostgreSQL does not run as root, so root starts it as the user `postgres`.
 */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { chown, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { Client } from 'pg';

export interface TestServer {
  /** The address of its first database, as `DATABASE_URL` would name it. */
  readonly url: string;
  /** Ends every process of the server as `kill -9` does. */
  readonly kill: () => Promise<void>;
  /** Starts it again on the same data. */
  readonly restart: () => Promise<void>;
  /** Stops it and removes its data. */
  readonly stop: () => Promise<void>;
}

/** `durable` makes it wait for the disk, as a server does unless told otherwise; without it tests are faster. */
export async function startServer({ durable }: { readonly durable: boolean }): Promise<TestServer> {
  const programs = programFolder();
  const account = process.getuid?.() === 0 ? accountOf('postgres') : undefined;
  const folder = await mkdtemp(join(tmpdir(), 'huskledger-server-'));
  if (account) await chown(folder, account.uid, account.gid);
  const data = join(folder, 'data');
  const setUp = ['-D', data, '-U', 'postgres', '-A', 'trust', '-E', 'UTF8', '--no-locale', '-N'];
  execFileSync(join(programs, 'initdb'), setUp, { ...account, cwd: folder, stdio: 'ignore' });
  const url = `postgresql://postgres@localhost/postgres?host=${encodeURIComponent(folder)}`;
  const settings = { listen_addresses: '', unix_socket_directories: folder, fsync: durable ? 'on' : 'off' };
  const told = Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`]);

  const start = async (): Promise<ChildProcess> => {
    const deadline = performance.now() + START_MS;
    for (;;) {
      const child = spawn(join(programs, 'postgres'), ['-D', data, ...told], {
        ...account,
        cwd: folder,
        stdio: 'ignore',
      });
      while (child.exitCode === null && performance.now() < deadline) {
        if (await answers(url)) return child;
        await pause(50);
      }
      // After a kill, it does not start before the last process of the former one is gone.
      if (performance.now() >= deadline) throw new Error(`The PostgreSQL server in ${folder} does not start`);
      await pause(100);
    }
  };
  let server = await start();
  return {
    url,
    kill: async () => {
      const processes = server.pid === undefined ? [] : [server.pid, ...childrenOf(server.pid)];
      const ended = ending(server);
      for (const id of processes) end(id);
      await ended;
    },
    restart: async () => {
      server = await start();
    },
    stop: async () => {
      const ended = ending(server);
      // SIGINT: ends all connections, then itself.
      server.kill('SIGINT');
      await ended;
      await rm(folder, { recursive: true, force: true });
    },
  };
}

const START_MS = 60_000;

function programFolder(): string {
  const debian = '/usr/lib/postgresql';
  const versions = existsSync(debian) ? readdirSync(debian).sort((a, b) => Number(b) - Number(a)) : [];
  const folders = [
    ...versions.map((version) => join(debian, version, 'bin')),
    ...(process.env['PATH'] ?? '').split(':'),
  ];
  const found = folders.find((folder) => existsSync(join(folder, 'initdb')));
  if (found !== undefined) return found;
  throw new Error(
    'These tests need a PostgreSQL server. Install it (on Debian: apt-get install postgresql).',
  );
}

function accountOf(name: string): { readonly uid: number; readonly gid: number } {
  const number = (option: string) => Number(execFileSync('id', [option, name], { encoding: 'utf8' }));
  return { uid: number('-u'), gid: number('-g') };
}

async function answers(url: string): Promise<boolean> {
  const client = new Client({ connectionString: url });
  try {
    await client.connect();
    await client.end();
    return true;
  } catch {
    return false;
  }
}

/** As Linux lists them. */
function childrenOf(id: number): number[] {
  return readFileSync(`/proc/${id}/task/${id}/children`, 'utf8').split(' ').filter(Boolean).map(Number);
}

function end(id: number): void {
  try {
    process.kill(id, 'SIGKILL');
  } catch {
    // It was gone before.
  }
}

function ending(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve();
  return new Promise((resolve) => child.once('exit', () => resolve()));
}
