/**
 * Starts one PostgreSQL server before the tests of `npm run test:postgres`, with a database that has all tables, which
 * each record of a test begins as a copy of; and stops it after them.
 */
import { openStore } from '../../src/store/open-store.ts';
import { startServer } from './start-server.ts';
import { createDatabase, MIGRATIONS } from './test-record.ts';

export async function setup(): Promise<() => Promise<void>> {
  const server = await startServer({ durable: false });
  const databaseUrl = await createDatabase(server.url);
  const store = await openStore({ databaseUrl, dataFolder: '', migrations: MIGRATIONS });
  await store.close();
  process.env['HUSKLEDGER_TEST_SERVER'] = server.url;
  process.env['HUSKLEDGER_TEST_DATABASE'] = new URL(databaseUrl).pathname.slice(1);
  return server.stop;
}
