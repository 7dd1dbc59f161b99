/**
 * Where the records of these tests lie: new data folders, or new databases of a server of these tests' own, which may
 * be killed.
 */
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Tools } from '../../../src/usecases/context.ts';
import { openRecord } from '../../../src/usecases/open-record.ts';
import { startServer, type TestServer } from '../start-server.ts';
import { createDatabase, SERVER } from '../test-record.ts';
import { newSeason } from './new-season.ts';
import type { Season } from './said.ts';

export interface Place {
  readonly databaseUrl: string | undefined;
  readonly dataFolder: string;
}

export interface Places {
  /** The server that the records are on; undefined where they are in data folders. */
  readonly server: TestServer | undefined;
  readonly emptyPlace: () => Promise<Place>;
  /** A record with parties, agreements and quotes. */
  readonly newPlace: () => Promise<{ readonly place: Place; readonly season: Season }>;
  readonly close: () => Promise<void>;
}

export async function openPlaces(): Promise<Places> {
  const server = SERVER === undefined ? undefined : await startServer({ durable: true });
  const folders: string[] = [];
  const emptyPlace = async (): Promise<Place> => {
    const dataFolder = await mkdtemp(join(tmpdir(), 'huskledger-test-'));
    folders.push(dataFolder);
    return { dataFolder, databaseUrl: server && (await createDatabase(server.url)) };
  };
  const withSeason = async () => {
    const place = await emptyPlace();
    return { place, season: await withRecord(place, newSeason) };
  };
  // To copy a folder is much faster than to make one.
  const image = server ? undefined : await withSeason();
  return {
    server,
    emptyPlace,
    newPlace: async () => {
      if (!image) return await withSeason();
      const place = await emptyPlace();
      await cp(image.place.dataFolder, place.dataFolder, { recursive: true });
      return { place, season: image.season };
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
