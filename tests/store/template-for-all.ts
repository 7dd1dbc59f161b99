/**
 * Makes one migrated data folder before all tests, which each record of a test begins as a copy of: making it anew for
 * every test file would take longer than most of the tests.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { openStore } from '../../src/store/open-store.ts';
import { RECORDS_FOLDER } from './records-folder.ts';

export async function setup(): Promise<() => Promise<void>> {
  const folder = await mkdtemp(join(RECORDS_FOLDER, 'huskledger-template-'));
  const store = await openStore({
    databaseUrl: undefined,
    dataFolder: folder,
    migrations: 'prisma/migrations',
  });
  await store.close();
  process.env['HUSKLEDGER_TEST_TEMPLATE'] = folder;
  return () => rm(folder, { recursive: true, force: true });
}
