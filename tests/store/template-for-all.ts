/**
 * Makes two data folders before all tests, which each record of a test begins as a copy of: one as the engine makes it,
 * and one with all tables. Making them anew for every test file would take longer than most of the tests.
 */
import { cpSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { openEngine } from '../../src/store/engine/open-engine.ts';
import { openStore } from '../../src/store/open-store.ts';
import { RECORDS_FOLDER } from './records-folder.ts';

export async function setup(): Promise<() => Promise<void>> {
  const folder = await mkdtemp(join(RECORDS_FOLDER, 'huskledger-template-'));
  const [blank, migrated] = [join(folder, 'blank'), join(folder, 'migrated')];
  const engine = await openEngine({ databaseUrl: undefined, dataFolder: blank });
  await engine.close();
  cpSync(blank, migrated, { recursive: true });
  const store = await openStore({
    databaseUrl: undefined,
    dataFolder: migrated,
    migrations: 'prisma/migrations',
  });
  await store.close();
  process.env['HUSKLEDGER_TEST_BLANK'] = blank;
  process.env['HUSKLEDGER_TEST_TEMPLATE'] = migrated;
  return () => rm(folder, { recursive: true, force: true });
}
