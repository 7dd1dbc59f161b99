/**
 * Starts one PostgreSQL server before the tests of `npm run test:postgres`, and stops it after them.
 */
import { startServer } from './start-server.ts';

export async function setup(): Promise<() => Promise<void>> {
  const server = await startServer({ durable: false });
  process.env['HUSKLEDGER_TEST_SERVER'] = server.url;
  return server.stop;
}
