/**
 * `npm run demo`: settles the three invented seasons, prints them, writes their invoices to `demo/out` (which git
 * ignores) and compares every amount with the figures in `demo/expected`.
 */
import { mkdir, readFile } from 'node:fs/promises';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run } from '../src/cli/run.ts';
import { openTerminal } from '../src/cli/terminal.ts';
import { printAmount } from '../src/domain/settlement/line.ts';
import type { Outcome } from '../src/domain/settlement/outcome.ts';
import { settleFolder } from '../src/usecases/settle-folder.ts';

const SEASONS = [
  { name: 'quillback-tarn-hollow', by: 'season', explained: '1053' },
  { name: 'feldmark-metric', by: 'day', explained: 'W528' },
  { name: 'bushels-dry', by: 'load', explained: 'B-406' },
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
  `\nNext: npx huskledger words demo/quillback-tarn-hollow` +
    `\n      npx huskledger try demo/quillback-tarn-hollow/agreement.json --dry-matter 58 --starch 50:64:2 --ndf 20:32:4 --price 4.25`,
);
await terminal.flush();
process.exitCode = different === 0 ? 0 : 1;

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
