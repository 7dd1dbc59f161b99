/**
 * A season of any size on disk, for measuring: one agreement of four lines, a sample for each load, a quote a day.
 * Figures vary from load to load by plain arithmetic, so that every run measures the same.
 */

import { once } from 'node:events';
import { createWriteStream } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

export const BENCH_AGREEMENT = {
  format: 'huskledger-agreement/1',
  id: 'B-26-001',
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  feed: 'whole-ear-corn',
  currency: 'USD',
  rounding: 'half-up',
  timeZone: 'America/Boise',
  references: {
    corn: {
      series: 'corn-county-bid',
      unit: 'bushel',
      poundsPerUnit: '56',
      dryMatterPercent: '84.5',
      starchPercentOfDryMatter: '71',
      rule: { kind: 'delivery-day', maxAgeDays: '7' },
      basis: '-0.15',
      floor: '3.60',
      ceiling: '5.40',
    },
  },
  price: [
    {
      term: 'constituent',
      label: 'Grain, by its starch',
      of: 'grain-equivalent',
      at: { reference: 'corn', per: 'dry-matter' },
      sharePercent: '100',
    },
    {
      term: 'remainder',
      label: 'Cob, husk and other fibre',
      after: ['grain-equivalent'],
      at: { reference: 'corn', per: 'dry-matter' },
      sharePercent: '60',
    },
    {
      term: 'schedule',
      label: 'Fibre above range',
      on: 'ndf',
      neutral: { from: '0', to: '26' },
      above: [{ points: '4', perPoint: '-0.80' }, { perPoint: '-1.50' }],
      count: 'exact',
      unit: 'money',
      per: 'short-ton',
      weight: 'dry-matter',
    },
    { term: 'flat', label: 'Hauling', rate: '-4.25', per: 'short-ton', weight: 'as-fed' },
  ],
};

const SEASON_DAYS = 21;
const FIRST_DAY = Date.UTC(2026, 8, 14, 12);
const DAY = 86_400_000;

export async function writeBenchSeason(folder: string, loads: number): Promise<void> {
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, 'agreement.json'), JSON.stringify(BENCH_AGREEMENT));
  const quotes = Array.from(
    { length: SEASON_DAYS + 1 },
    (_, day) => `corn-county-bid,${dateOf(day)},${(4 + (day % 9) * 0.0275).toFixed(4)}`,
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
    return `S${index + 1},dry-matter,${dryMatter.toFixed(1)},${starch.toFixed(1)},${ndf.toFixed(1)}`;
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
