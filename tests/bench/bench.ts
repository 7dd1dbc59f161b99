/**
 * `npm run bench`: figures of speed and memory from one run on one machine. `-- --exact` adds a million loads
 * compared with the oracle; `-- --quick` leaves the million out; `-- --record` measures the shared record alone,
 * `-- --statement` a long statement's PDF, `-- --matching` the matching of two lists at season close.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { compareExactly } from './exact.ts';
import { measureInMemory } from './in-memory.ts';
import { measureMatching } from './matching.ts';
import { type Measured, measureProcess, medianProcess } from './measure.ts';
import { measureRecord } from './record.ts';
import { measureStatement } from './statement.ts';
import { writeBenchSeason } from './write-season.ts';

const DIST = dirname(fileURLToPath(import.meta.url));
const PROGRAM = join(DIST, '..', 'huskledger.js');
const PLAIN = join(DIST, 'plain-loop.js');
const options = new Set(process.argv.slice(2));

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

function show({ seconds, peakMegabytes }: Measured): string {
  const memory = peakMegabytes === undefined ? '' : `, peak ${peakMegabytes.toFixed(0)} MB`;
  return `${seconds.toFixed(2)} s${memory}`;
}

function ms(seconds: number): string {
  return `${(seconds * 1000).toFixed(0)} ms`;
}

if (options.has('--record')) {
  await measureRecord(say);
} else if (options.has('--statement')) {
  await measureStatement(say);
} else if (options.has('--matching')) {
  process.exitCode = measureMatching(say) ? 0 : 1;
} else if (options.has('--exact')) {
  process.exitCode = compareExactly(1_000_000, say) === 0 ? 0 : 1;
} else {
  const folder = await mkdtemp(join(tmpdir(), 'huskledger-bench-'));
  try {
    await measureAll(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function measureAll(folder: string): Promise<void> {
  say(`Node ${process.version}. Whole processes, median of 5 where nothing else is said.`);
  say(`start (--help): ${show(await medianProcess(5, [PROGRAM, '--help']))}`);

  const season = (loads: number) => join(folder, String(loads));
  for (const loads of [10_000, 100_000]) await writeBenchSeason(season(loads), loads);
  const json = await medianProcess(5, [PROGRAM, 'settle', season(10_000), '--json']);
  say(`10,000 loads, settle --json (every line with its derivation): ${show(json)}`);
  const csv = await medianProcess(5, [PROGRAM, 'settle', season(10_000), '--csv']);
  say(`10,000 loads, settle --csv: ${show(csv)}`);
  const plain = await medianProcess(5, [PLAIN, season(10_000)]);
  say(`10,000 loads, plainest decimal.js loop (no checks, no derivation): ${show(plain)}`);
  const ratio = (measured: Measured) => (measured.seconds / plain.seconds).toFixed(2);
  say(`whole process against the plain loop's: ratio ${ratio(json)} (--json), ${ratio(csv)} (--csv)`);
  const { productSeconds, plainSeconds } = measureInMemory(season(10_000));
  say(
    `10,000 loads in memory, no reading or printing: product ${ms(productSeconds)}, plain decimal.js loop ${ms(plainSeconds)}, ratio ${(productSeconds / plainSeconds).toFixed(2)}`,
  );

  const hundred = await measureProcess([PROGRAM, 'settle', season(100_000), '--json']);
  say(`100,000 loads, settle --json, one run: ${show(hundred)}`);
  say(`  time for ten times the loads of 10,000: ${(hundred.seconds / json.seconds).toFixed(1)} times`);
  if (!options.has('--quick')) {
    await writeBenchSeason(season(1_000_000), 1_000_000);
    const million = await measureProcess([PROGRAM, 'settle', season(1_000_000), '--json']);
    say(`1,000,000 loads, settle --json, one run: ${show(million)}`);
    say(`  time for ten times the loads of 100,000: ${(million.seconds / hundred.seconds).toFixed(1)} times`);
  }
  await measurePdf(folder, season(10_000));
  await measureStatement(say);
  if (!measureMatching(say)) process.exitCode = 1;
  await measureRecord(say);
}

async function measurePdf(folder: string, season: string): Promise<void> {
  for (const by of ['load', 'season']) {
    const out = join(folder, `${by}.pdf`);
    const measured = await measureProcess([PROGRAM, 'settle', season, '--pdf', out, '--by', by]);
    const pages = Number(/on (\d+) page/.exec(measured.said)?.[1]);
    const rate = (pages / measured.seconds).toFixed(0);
    say(`10,000 loads as PDF by ${by}, one run: ${pages} pages, ${show(measured)}, ${rate} pages a second`);
  }
}
