/**
 * The database to talk to: a PostgreSQL server where one is named, else the embedded one in the data folder. The first
 * process to come owns the folder and serves a socket in it; others talk to that socket, and when the owner ends, one of
 * them takes its place.
 */
import { chmod, mkdir, realpath } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { PoolConfig } from 'pg';
import { callOwner } from './call-owner.ts';
import { holdFolder } from './hold-folder.ts';
import { ownFolder } from './own-folder.ts';

export interface Engine {
  /** How to connect. It stays the same when another process comes to serve the folder. */
  readonly connection: PoolConfig;
  /** Whether all connections are one session, so that a setting that one of them made holds for the others. */
  readonly isShared: boolean;
  /** Says what this is, for a person: "the data folder /…, through the process that owns it". */
  readonly description: string;
  /** After a connection failed: whether to try again, since somebody else serves the folder now, or this process. */
  readonly recover: () => Promise<boolean>;
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
  if (databaseUrl === undefined) return await openFolder(await makeFolder(dataFolder));
  return {
    connection: { connectionString: databaseUrl },
    isShared: false,
    description: 'a PostgreSQL server',
    recover: async () => false,
    close: async () => {},
  };
}

/** The name that PostgreSQL clients look for in a folder. */
const SOCKET_NAME = '.s.PGSQL.5432';
/** Bytes that a socket's path can have on every system. */
const LONGEST_SOCKET_PATH = 103;
const PATIENCE_MS = 20_000;
const CALL_MS = 5_000;
const RETRY_MS = 100;

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

async function openFolder(folder: string): Promise<Engine> {
  const socket = join(folder, SOCKET_NAME);
  if (Buffer.byteLength(socket) > LONGEST_SOCKET_PATH) {
    throw new EngineUnavailable(
      `The path of the data folder, ${folder}, is too long for a socket; choose a shorter one in HUSKLEDGER_DATA.`,
    );
  }
  let place = await ownOrJoin(folder, socket);
  let taking: Promise<void> | undefined;
  let closed = false;
  const take = async () => {
    place = await ownOrJoin(folder, socket);
  };
  return {
    connection: { host: folder, user: 'postgres', database: 'postgres' },
    isShared: true,
    description: place.owned
      ? `the data folder ${folder}`
      : `the data folder ${folder}, through the process that owns it`,
    recover: async () => {
      // The owner's own connections fail for other reasons.
      if (place.owned || closed) return false;
      // Requests that fail at one time take the folder once.
      taking ??= take().finally(() => {
        taking = undefined;
      });
      await taking;
      return !closed;
    },
    close: async () => {
      closed = true;
      await taking?.catch(() => {});
      await place.leave();
    },
  };
}

/** How this process stands to a folder. */
interface Place {
  readonly owned: boolean;
  readonly leave: () => Promise<void>;
}

async function ownOrJoin(folder: string, socket: string): Promise<Place> {
  const deadline = performance.now() + PATIENCE_MS;
  do {
    const hold = await holdFolder(folder);
    const owner = await callOwner(socket, CALL_MS);
    if (hold && owner === 'nobody') return await own(folder, socket, hold.release);
    // Somebody serves the folder whose hold is not seen from here: from another container.
    await hold?.release();
    if (owner === 'answers') return { owned: false, leave: async () => {} };
    // The owner may still be starting, or ending: then the folder is soon free.
    await pause(RETRY_MS);
  } while (performance.now() < deadline);
  throw new EngineUnavailable(
    `Another process has the data folder ${folder} but does not answer. Wait until it has started, or end it, and try again.`,
  );
}

async function own(folder: string, socket: string, release: () => Promise<void>): Promise<Place> {
  try {
    const end = await ownFolder(folder, socket);
    return { owned: true, leave: () => end().finally(release) };
  } catch (error) {
    await release();
    throw error;
  }
}
