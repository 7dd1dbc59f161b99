/**
 * `npm run demo`: settles the five invented seasons, prints them, writes their invoices to `demo/out` (which git
 * ignores) and compares every amount with the figures in `demo/expected`. Then records the first of them in a shared
 * record of its own, plays the stories of the last two there, says whom to sign in as, and serves it; `-- --no-serve`
 * ends before that.
 */
import { mkdir, readFile } from 'node:fs/promises';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { WrongUse } from '../src/cli/exit-status.ts';
import { run } from '../src/cli/run.ts';
import { servePages } from '../src/cli/serve-pages.ts';
import { openTerminal } from '../src/cli/terminal.ts';
import { printAmount } from '../src/domain/settlement/line.ts';
import type { Outcome } from '../src/domain/settlement/outcome.ts';
import { readEnvironment } from '../src/environment/environment.ts';
import { EngineUnavailable, openRecord } from '../src/usecases/open-record.ts';
import { settleFolder } from '../src/usecases/settle-folder.ts';
import { verifyRecord } from '../src/usecases/verify/verify-record.ts';
import { recordDemoSeason } from './record-season.ts';

const SEASONS = [
  { name: 'quillback-tarn-hollow', by: 'season', explained: '1053' },
  { name: 'feldmark-metric', by: 'day', explained: 'W528' },
  { name: 'bushels-dry', by: 'load', explained: 'B-406' },
  { name: 'paid-by-week', by: 'season', explained: '705' },
  { name: 'asked-again', by: 'season', explained: '806' },
] as const;

/** Seasons whose stories are played, and where the pages show what they told. */
const STORIES = [
  { name: 'paid-by-week', look: 'Money' },
  { name: 'asked-again', look: 'Questions' },
] as const;

const DEMO = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'demo');
const terminal = openTerminal(process.stdout, process.stderr);

await mkdir(join(DEMO, 'out'), { recursive: true });

let different = 0;
for (const { name, by, explained } of SEASONS) {
  const folder = join(DEMO, name);
  const out = join(DEMO, 'out', `${name}.pdf`);
  await say(`\n=== demo/${name}\n`);
  await run(['settle', folder, '--pdf', out, '--by', by], terminal);
  await say(`\nOne load, step by step:\n`);
  await run(['settle', folder, '--explain', explained], terminal);
  const differences = await compareWithExpected(folder, join(DEMO, 'expected', `${name}.csv`));
  for (const difference of differences) await say(`DIFFERENT ${difference}`);
  if (differences.length === 0) await say(`\nEvery load agrees with demo/expected/${name}.csv.`);
  await say(`Invoices: ${relative(process.cwd(), out)}`);
  different += differences.length;
}
await say(
  `\nFrom here: npx huskledger words demo/quillback-tarn-hollow` +
    `\n           npx huskledger try demo/quillback-tarn-hollow/agreement.json --dry-matter 58 --starch 50:64:2 --ndf 20:32:4 --price 4.25`,
);
const environment = readEnvironment(process.env, DEMO);
const dataFolder = resolve(process.env['HUSKLEDGER_DATA'] ?? join(DEMO, 'out', 'data'));
try {
  await shareSeason();
} catch (error) {
  if (!(error instanceof WrongUse || error instanceof EngineUnavailable)) throw error;
  terminal.say(error.message);
  process.exit(1);
}
await terminal.flush();
process.exitCode = different === 0 ? 0 : 1;
if (different === 0 && !process.argv.includes('--no-serve')) {
  process.exitCode = await servePages({
    packageFolder: join(DEMO, '..'),
    environment: { ...environment, dataFolder },
    say: terminal.say,
  });
}

/** The first season and the stories in the shared record, verified, and whom to sign in as. */
async function shareSeason(): Promise<void> {
  await say('\n=== The same season as the record that both parties share\n');
  const record = await openRecord({ ...environment, dataFolder }, join(DEMO, '..'));
  try {
    const { people, imported, played } = await recordDemoSeason(record, {
      season: join(DEMO, SEASONS[0].name),
      stories: STORIES.map(({ name }) => join(DEMO, name)),
      dataFolder,
    });
    const { settled, refused, waiting } = imported.settled ?? { settled: 0, refused: 0, waiting: 0 };
    await say(`Settled now: ${settled} loads; refused ${refused}, waiting ${waiting}.`);
    for (const [index, { name, look }] of STORIES.entries()) {
      const { acts = 0, from = '', to = '' } = played[index] ?? {};
      await say(`${look}: ${acts} lines of demo/${name}/money.txt, ${from} to ${to}; look under ${look}.`);
    }
    const verified = await verifyRecord(record);
    different += verified.faults.length;
    for (const { row, message } of verified.faults) await say(`DIFFERENT ${row}: ${message}`);
    await say(
      `Verified: ${verified.settlements} settlements worked out again, ${verified.entries} journal entries walked, ${verified.faults.length} faults.`,
    );
    await say(`\nOpen ${environment.address ?? `http://localhost:${environment.port}`} and sign in as`);
    for (const { name, party, email, password } of people) {
      await say(`  ${email}  ${password}  (${name}, ${party})`);
    }
    await say(`The record is in ${record.description}.`);
  } finally {
    await record.close();
  }
}

async function say(line: string): Promise<void> {
  await terminal.write(`${line}\n`);
}

/** The loads, as `ticket,status,reason,total,amounts`, that are not as they should be. */
async function compareWithExpected(folder: string, path: string): Promise<string[]> {
  const { settled } = await settleFolder(folder);
  if (!settled) return [`${folder} has input errors`];
  const expected = (await readFile(path, 'utf8')).trim().split('\n').slice(1);
  const found: string[] = [];
  let total = 0n;
  const outcomes: Outcome[] = [];
  for await (const batch of settled.outcomes()) outcomes.push(...batch);
  for (const outcome of outcomes) {
    const { load, status } = outcome;
    const amount = (value: bigint) => printAmount(value, settled.money);
    const figures =
      outcome.status === 'settled'
        ? [amount(outcome.total), outcome.lines.map((line) => amount(line.amount)).join(' ')]
        : ['', ''];
    if (outcome.status === 'settled') total += outcome.total;
    found.push(
      [load.ticket, status, outcome.status === 'waiting' ? outcome.reason : '', ...figures].join(','),
    );
  }
  found.push(`all loads,,,${printAmount(total, settled.money)},`);
  const length = Math.max(found.length, expected.length);
  return Array.from({ length }, (_, index) => index).flatMap((index) =>
    found[index] === expected[index]
      ? []
      : [`expected ${expected[index] ?? 'nothing'}, found ${found[index] ?? 'nothing'}`],
  );
}
