/**
 * Records for tests: an embedded database from one migrated image, or a PostgreSQL server where
 * `HUSKLEDGER_TEST_SERVER` names one. Each test file has a database of its own.
 */
import { cpSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { Client } from 'pg';
import { v7 } from 'uuid';
import { openSeason } from '../../src/files/read-season.ts';
import { openStore, type Store } from '../../src/store/open-store.ts';
import type { Caller, Tools } from '../../src/usecases/context.ts';
import { type ImportedSeason, recordSeason } from '../../src/usecases/season/record-season.ts';
import { RECORDS_FOLDER } from './records-folder.ts';

export const MIGRATIONS = 'prisma/migrations';

export interface TestRecord {
  readonly store: Store;
  readonly tools: Tools;
  /** A connection with all rights, to try what the program must not be able to do. */
  readonly superuser: () => Promise<Client>;
  readonly choice: { readonly databaseUrl: string | undefined; readonly dataFolder: string };
  readonly close: () => Promise<void>;
}

/** Which engine the tests run on. */
export const SERVER = process.env['HUSKLEDGER_TEST_SERVER'];

/** What to begin as a copy of: see template-for-all.ts and server-for-all.ts. */
const TEMPLATES = {
  migrated: process.env['HUSKLEDGER_TEST_TEMPLATE'],
  blank: process.env['HUSKLEDGER_TEST_BLANK'],
  database: process.env['HUSKLEDGER_TEST_DATABASE'],
};

/** Makes a new data folder one that holds a database: `blank` as the engine makes it, or with all tables, empty. */
export function fillFolder(dataFolder: string, as: 'migrated' | 'blank'): void {
  const template = TEMPLATES[as];
  // A thousand small files: waiting for each takes four times as long.
  if (template !== undefined) cpSync(template, dataFolder, { recursive: true });
}

export async function openTestRecord(): Promise<TestRecord> {
  const dataFolder = await mkdtemp(join(RECORDS_FOLDER, 'huskledger-test-'));
  const databaseUrl = SERVER === undefined ? undefined : await createDatabase(SERVER, TEMPLATES.database);
  if (SERVER === undefined) fillFolder(dataFolder, 'migrated');
  const choice = { databaseUrl, dataFolder };
  const store = await openStore({ ...choice, migrations: MIGRATIONS });
  let clock = Date.UTC(2026, 10, 25, 12);
  const tools: Tools = { store, now: () => clock++, newId: v7 };
  return {
    store,
    tools,
    choice,
    superuser: async () => {
      const client = new Client(
        databaseUrl === undefined
          ? { host: dataFolder, user: 'postgres', database: 'postgres' }
          : { connectionString: databaseUrl },
      );
      await client.connect();
      return client;
    },
    close: async () => {
      await store.close();
      await rm(dataFolder, { recursive: true, force: true });
    },
  };
}

/** A new database of a server, empty or a copy of another that nobody uses; returns its address. */
export async function createDatabase(server: string, template = 'template1'): Promise<string> {
  const name = `test_${v7().replaceAll('-', '')}`;
  const client = new Client({ connectionString: server });
  await client.connect();
  await client.query(`CREATE DATABASE ${name} TEMPLATE ${template}`);
  await client.end();
  const url = new URL(server);
  url.pathname = `/${name}`;
  return url.toString();
}

/** A party with one owner. */
export async function newParty({ store }: Tools, name: string): Promise<Caller> {
  const [partyId, personId] = [v7(), v7()];
  await store.atDoor(async (tx) => {
    await tx.party.create({ data: { id: partyId, name } });
    await tx.person.create({
      data: { id: personId, name: `${name} owner`, email: `${personId}@example.org` },
    });
    await tx.member.create({ data: { id: v7(), partyId, personId, role: 'owner' } });
  });
  return { partyId, personId, role: 'owner' };
}

export interface SeasonOfTwo {
  readonly folder: string;
  readonly seller: Caller;
  readonly buyer: Caller;
  readonly settle?: boolean;
}

/** Records a folder as both its parties, each deciding for itself. */
export async function importTogether(
  tools: Tools,
  { seller, buyer, ...season }: SeasonOfTwo,
): Promise<ImportedSeason> {
  return await recordSeason(tools, await openSeason(season.folder), {
    ...season,
    sellerId: seller.partyId,
    buyerId: buyer.partyId,
    caller: seller,
    decides: { seller, buyer },
  });
}
