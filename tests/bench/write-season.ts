/**
 * A season of any size on disk, for measuring: one agreement of four lines, a sample for each load, a quote a day.
 * Figures vary from load to load by plain arithmetic, so that every run measures the same.
 */

import { once } from 'node:events';
import { createWriteStream } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { workedExample } from '../oracle/worked-example.ts';

/** The worked example, without its ranges and its rounding of tests. */
export const BENCH_AGREEMENT = {
  ...workedExample.agreement,
  tests: {},
  acceptance: [],
};
const SERIES = 'corn-elevator-bid';

const SEASON_DAYS = 21;
const FIRST_DAY = Date.UTC(2026, 8, 14, 12);
const DAY = 86_400_000;

export async function writeBenchSeason(folder: string, loads: number): Promise<void> {
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, 'agreement.json'), JSON.stringify(BENCH_AGREEMENT));
  const quotes = Array.from(
    { length: SEASON_DAYS + 1 },
    (_, day) => `${SERIES},${dateOf(day)},${(4 + (day % 9) * 0.0275).toFixed(4)}`,
  );
  await writeFile(join(folder, 'prices.csv'), `series,date,price\n${quotes.join('\n')}\n`);
  await writeLines(
    join(folder, 'loads.csv'),
    'ticket,delivered_at,gross,tare,unit,sample',
    loads,
    (index) => {
      const day = Math.floor((index * SEASON_DAYS) / loads);
      const clock = `${String(6 + (index % 16)).padStart(2, '0')}:${String((index * 7) % 60).padStart(2, '0')}:00`;
      const gross = 76_000 + ((index * 37) % 220) * 20;
      const tare = 30_600 + ((index * 11) % 60) * 20;
      return `T${index + 1},${dateOf(day)}T${clock}-06:00,${gross},${tare},lb,S${index + 1}`;
    },
  );
  await writeLines(join(folder, 'samples.csv'), 'sample,basis,dry_matter,starch,ndf', loads, (index) => {
    const dryMatter = (560 + ((index * 13) % 80)) / 10;
    const starch = (500 + ((index * 17) % 110)) / 10;
    const ndf = (200 + ((index * 29) % 140)) / 10;
    // Laboratories report to different places, so sums meet denominators of several sizes.
    const places = 1 + (index % 3);
    return `S${index + 1},dry-matter,${dryMatter.toFixed(places)},${starch.toFixed(places)},${ndf.toFixed(1)}`;
  });
}

function dateOf(day: number): string {
  return new Date(FIRST_DAY + day * DAY).toISOString().slice(0, 10);
}

async function writeLines(
  path: string,
  header: string,
  count: number,
  line: (index: number) => string,
): Promise<void> {
  const stream = createWriteStream(path);
  stream.write(`${header}\n`);
  for (let start = 0; start < count; start += 5_000) {
    const lines = Array.from({ length: Math.min(5_000, count - start) }, (_, offset) => line(start + offset));
    if (!stream.write(`${lines.join('\n')}\n`)) await once(stream, 'drain');
  }
  stream.end();
  await once(stream, 'finish');
}
