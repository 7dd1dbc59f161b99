/**
 * The database to talk to: a PostgreSQL server where one is named, else the embedded one in the data folder. The first
 * process to come owns the folder and serves a socket in it; others talk to that socket.
 */
import { chmod, mkdir, realpath, rm } from 'node:fs/promises';
import { connect } from 'node:net';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { PoolConfig } from 'pg';
import { holdFolder } from './hold-folder.ts';

export interface Engine {
  /** How to connect. */
  readonly connection: PoolConfig;
  /** Whether it is the embedded database, ours to look after. */
  readonly isEmbedded: boolean;
  /** Says what this is, for a person: "the data folder /…, which this process owns". */
  readonly description: string;
  readonly close: () => Promise<void>;
}

/** The database cannot be used now, in words that say what to do. */
export class EngineUnavailable extends Error {}

export interface EngineChoice {
  readonly databaseUrl: string | undefined;
  readonly dataFolder: string;
}

/** Opens the database. Throws `EngineUnavailable`. */
export async function openEngine({ databaseUrl, dataFolder }: EngineChoice): Promise<Engine> {
  if (databaseUrl !== undefined) {
    return {
      connection: { connectionString: databaseUrl },
      isEmbedded: false,
      description: 'a PostgreSQL server',
      close: async () => {},
    };
  }
  const folder = await makeFolder(dataFolder);
  const socket = join(folder, SOCKET_NAME);
  if (Buffer.byteLength(socket) > LONGEST_SOCKET_PATH) {
    throw new EngineUnavailable(
      `The path of the data folder, ${folder}, is too long for a socket; choose a shorter one in HUSKLEDGER_DATA.`,
    );
  }
  const deadline = performance.now() + PATIENCE_MS;
  do {
    const hold = await holdFolder(folder);
    if (hold) return await own(folder, hold.release);
    // The owner may still be starting, or ending: then the folder is soon free.
    if (await answers(socket)) return joinOwner(folder);
    await pause(RETRY_MS);
  } while (performance.now() < deadline);
  throw new EngineUnavailable(
    `Another process has the data folder ${folder} but does not answer. Wait until it has started, or end it, and try again.`,
  );
}

/** The name that PostgreSQL clients look for in a folder. */
const SOCKET_NAME = '.s.PGSQL.5432';
/** Bytes that a socket's path can have on every system. */
const LONGEST_SOCKET_PATH = 103;
const PATIENCE_MS = 20_000;
const RETRY_MS = 100;
/** More at once would wait for one another all the same. */
const MOST_CONNECTIONS = 100;

async function makeFolder(path: string): Promise<string> {
  try {
    await mkdir(path, { recursive: true });
    const folder = await realpath(path);
    // Whoever can open the folder can open the database.
    await chmod(folder, 0o700);
    return folder;
  } catch (error) {
    throw new EngineUnavailable(
      `The data folder ${path} cannot be used (${error instanceof Error ? error.message : String(error)}). Name another in HUSKLEDGER_DATA.`,
    );
  }
}

async function own(folder: string, release: () => Promise<void>): Promise<Engine> {
  try {
    // Loaded only here: it is large, and most commands do without.
    const [{ PGlite }, { PGLiteSocketServer }] = await Promise.all([
      import('@electric-sql/pglite'),
      import('@electric-sql/pglite-socket'),
    ]);
    const path = join(folder, SOCKET_NAME);
    await rm(path, { force: true });
    const db = await PGlite.create({ dataDir: join(folder, 'database') });
    const server = new PGLiteSocketServer({ db, path, maxConnections: MOST_CONNECTIONS });
    await server.start();
    return {
      connection: { host: folder, user: 'postgres', database: 'postgres' },
      isEmbedded: true,
      description: `the data folder ${folder}`,
      close: async () => {
        await server.stop();
        await db.close();
        await rm(path, { force: true });
        await release();
      },
    };
  } catch (error) {
    await release();
    throw error;
  }
}

function joinOwner(folder: string): Engine {
  return {
    connection: { host: folder, user: 'postgres', database: 'postgres' },
    isEmbedded: true,
    description: `the data folder ${folder}, through the process that owns it`,
    close: async () => {},
  };
}

function answers(path: string): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect({ path });
    socket.once('connect', () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => resolve(false));
  });
}
