/**
 * Where the records of these tests lie: new data folders, or new databases of a server of these tests' own, which may
 * be killed.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { v7 } from 'uuid';
import type { Tools } from '../../../src/usecases/context.ts';
import { openRecord } from '../../../src/usecases/open-record.ts';
import { startServer, type TestServer } from '../start-server.ts';
import { createDatabase, SERVER } from '../test-record.ts';

export interface Place {
  readonly databaseUrl: string | undefined;
  readonly dataFolder: string;
}

export interface Places {
  /** The server that the records are on; undefined where they are in data folders. */
  readonly server: TestServer | undefined;
  readonly newPlace: () => Promise<Place>;
  readonly close: () => Promise<void>;
}

export async function openPlaces(): Promise<Places> {
  const server = SERVER === undefined ? undefined : await startServer({ durable: true });
  const folders: string[] = [];
  return {
    server,
    newPlace: async () => {
      const dataFolder = await mkdtemp(join(tmpdir(), 'huskledger-test-'));
      folders.push(dataFolder);
      return { dataFolder, databaseUrl: server && (await createDatabase(server.url)) };
    },
    close: async () => {
      await server?.stop();
      for (const folder of folders) await rm(folder, { recursive: true, force: true });
    },
  };
}

/** Opens a record in this process, as any program would, and closes it again. */
export async function withRecord<Answer>(
  place: Place,
  work: (tools: Tools) => Promise<Answer>,
): Promise<Answer> {
  const record = await openRecord(place, '.');
  try {
    return await work(record);
  } finally {
    await record.close();
  }
}

export function newName(): string {
  return v7().slice(-8);
}
