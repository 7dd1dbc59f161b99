/**
 * The shared record, measured: loads settled and posted in bulk against a bare insert of the same rows on the same
 * engine, and one page of a large agreement.
 */
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import { v7 } from 'uuid';
import { openEngine } from '../../src/store/engine/open-engine.ts';
import { openStore, type Store, type Transaction } from '../../src/store/open-store.ts';
import { type Column, insertRows } from '../../src/store/rows/insert-rows.ts';
import type { Caller, Tools } from '../../src/usecases/context.ts';
import { readLoad } from '../../src/usecases/loads/read-load.ts';
import { readLoadList } from '../../src/usecases/loads/read-load-list.ts';
import { readWaiting } from '../../src/usecases/loads/read-waiting.ts';
import { createFirstPerson } from '../../src/usecases/people/create-first-person.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { askSignedIn } from '../browser/http-caller.ts';
import { buildProgram, startProgram } from '../browser/program.ts';
import { startServer } from '../store/start-server.ts';
import { createDatabase, importTogether, newParty } from '../store/test-record.ts';
import { measureImport } from './import.ts';
import { writeBenchSeason } from './write-season.ts';

const LOADS = 5_000;
const OWNER = {
  name: 'Somebody',
  email: 'somebody@example.org',
  password: 'a password for one measurement',
  party: 'Quillback Acres',
};
/** What settling writes. */
const TABLES = [
  'settlement',
  'settlement_line',
  'settlement_price',
  'settlement_quote',
  'journal_entry',
  'posting',
] as const;

/** Measures on the embedded engine, and on a PostgreSQL server of its own where one is installed. */
export async function measureRecord(say: (line: string) => void): Promise<void> {
  await measureEngine('embedded', undefined, say);
  const server = await startServer({ durable: true }).catch((error: unknown) => {
    say(`PostgreSQL server: not measured (${error instanceof Error ? error.message : String(error)})`);
  });
  if (!server) return;
  try {
    await measureEngine('PostgreSQL server', server.url, say);
  } finally {
    await server.stop();
  }
}

async function measureEngine(
  name: string,
  server: string | undefined,
  say: (line: string) => void,
): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'huskledger-bench-'));
  const dataFolder = join(folder, 'data');
  const databaseUrl = server === undefined ? undefined : await createDatabase(server);
  try {
    // The engine is held open here too, so that a bare connection has something to talk to.
    const engine = await openEngine({ databaseUrl, dataFolder });
    const store = await openStore({ databaseUrl, dataFolder, migrations: 'prisma/migrations' });
    const client = new Client(engine.connection);
    await client.connect();
    const tools: Tools = { store, now: Date.now, newId: v7 };
    const seller: Caller = { ...(await createFirstPerson(tools, OWNER)), role: 'owner' };
    const buyer = await newParty(tools, 'Tarn Hollow Dairy');
    const season = join(folder, 'season');
    await mkdir(season);
    await writeBenchSeason(season, LOADS);
    const recording = await timed(() =>
      importTogether(tools, { folder: season, seller, buyer, settle: false }),
    );
    say(
      `${name}: ${LOADS} loads and results recorded from files, ${rate(LOADS * 2, recording.seconds)} rows a second`,
    );
    const agreementId = recording.answer.agreementId ?? '';
    const asSeller = { ...tools, caller: seller };
    const settling = await timed(() => settleLoads(asSeller, { agreementId }));
    const bare = await insertBare(store, client);
    say(
      `${name}: ${settling.answer.settled} loads settled and posted in one transaction, ${rate(LOADS, settling.seconds)} loads a second; bare insert of the same ${bare.rows} rows ${ms(bare.seconds)} against ${ms(settling.seconds)}, ratio ${(bare.seconds / settling.seconds).toFixed(2)}`,
    );
    const page = await medianOf(9, () =>
      readLoadList(asSeller, { agreementId, status: 'all', locale: 'en-US' }),
    );
    const all = await readLoadList(asSeller, { agreementId, status: 'all', locale: 'en-US' });
    const one = await medianOf(9, () =>
      readLoad(asSeller, { loadId: all.loads[0]?.id ?? '', locale: 'en-US' }),
    );
    const waiting = await medianOf(9, () => readWaiting(asSeller));
    say(
      `${name}: of ${LOADS} loads, a page of 50 ${ms(page)}, one load ${ms(one)}, what waits ${ms(waiting)}`,
    );
    const brought = await measureImport(tools, seller, buyer);
    say(
      `${name}: 2,000 tickets and 600 results of another program previewed in ${ms(brought.preview)}, taken in ${ms(brought.take)}, once more (nothing added) in ${ms(brought.again)}`,
    );
    await client.end();
    await store.close();
    await engine.close();
    const variables = databaseUrl === undefined ? undefined : { DATABASE_URL: databaseUrl };
    const served = await measurePage(dataFolder, variables ?? {});
    say(`${name}: the page "Loads" of that agreement over HTTP ${ms(served)}`);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Seconds that one page takes, asked for over HTTP from the built program. */
async function measurePage(dataFolder: string, variables: Readonly<Record<string, string>>): Promise<number> {
  if (!existsSync(join('.next', 'BUILD_ID'))) await buildProgram();
  const program = await startProgram(dataFolder, variables);
  try {
    const ask = await askSignedIn(program.address, OWNER);
    return await medianOf(9, async () => {
      const page = await ask({ path: '/loads' });
      const text = await page.text();
      if (page.status !== 200 || !text.includes('Older loads')) throw new Error(`The page is ${page.status}`);
    });
  } finally {
    await program.stop();
  }
}

/** The rows that settling wrote, into tables with the same columns and nothing else: no key, check or trigger. */
async function insertBare(store: Store, client: Client): Promise<{ rows: number; seconds: number }> {
  const tables: { name: string; columns: Record<string, Column>; rows: number }[] = [];
  for (const name of TABLES) {
    await client.query(`CREATE UNLOGGED TABLE "bare_${name}" (LIKE "${name}")`);
    await client.query(`ALTER TABLE "bare_${name}" SET LOGGED`);
    tables.push({ name, ...(await columnsOf(client, name)) });
  }
  const insert = async (tx: Transaction) => {
    for (const { name, columns } of tables) await insertRows(tx, `bare_${name}`, columns);
  };
  const { seconds } = await timed(() => store.forAudit(insert));
  return { rows: tables.reduce((sum, { rows }) => sum + rows, 0), seconds };
}

async function columnsOf(
  client: Client,
  table: string,
): Promise<{ columns: Record<string, Column>; rows: number }> {
  const { rows: known } = await client.query<{ name: string; type: string }>(
    `SELECT column_name AS name, udt_name AS type FROM information_schema.columns
     WHERE table_schema = 'public' AND table_name = $1 ORDER BY ordinal_position`,
    [table],
  );
  const { rows } = await client.query<Record<string, string | null>>(
    `SELECT ${known.map(({ name }) => `"${name}"::text`).join(', ')} FROM "${table}"`,
  );
  const columns = Object.fromEntries(
    known.map(({ name, type }): [string, Column] => [name, [type, rows.map((row) => row[name] ?? null)]]),
  );
  return { columns, rows: rows.length };
}

async function timed<Answer>(work: () => Promise<Answer>): Promise<{ answer: Answer; seconds: number }> {
  const start = performance.now();
  const answer = await work();
  return { answer, seconds: (performance.now() - start) / 1000 };
}

async function medianOf(runs: number, work: () => Promise<unknown>): Promise<number> {
  const seconds: number[] = [];
  for (let run = 0; run < runs; run++) seconds.push((await timed(work)).seconds);
  return seconds.sort((a, b) => a - b)[Math.floor(runs / 2)] ?? 0;
}

function rate(count: number, seconds: number): string {
  return Math.round(count / seconds).toLocaleString('en-US');
}

function ms(seconds: number): string {
  return `${(seconds * 1000).toFixed(0)} ms`;
}
