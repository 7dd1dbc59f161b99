/**
 * The plainest script that settles the benchmark's season with decimal.js, as a whole process: it splits lines at
 * commas and prints amounts.
 */
import { Decimal } from 'decimal.js';
import { plainPrice } from './plain-price.ts';
import { plainRows } from './plain-rows.ts';

const folder = process.argv[2] ?? '.';
const quotes = new Map(plainRows(folder, 'prices.csv').map(({ date = '', price = '' }) => [date, price]));
const samples = new Map(plainRows(folder, 'samples.csv').map((row) => [row['sample'], row]));
const loads: string[] = [];
let total = new Decimal(0);
for (const { ticket, delivered_at = '', gross = '', tare = '', sample } of plainRows(folder, 'loads.csv')) {
  const { dry_matter: dryMatter = '', starch = '', ndf = '' } = samples.get(sample) ?? {};
  const quote = quotes.get(delivered_at.slice(0, 10)) ?? '';
  const { amounts, sum } = plainPrice({ gross, tare, dryMatter, starch, ndf, quote });
  total = total.plus(sum);
  loads.push(
    JSON.stringify({ ticket, lines: amounts.map((amount) => amount.toFixed(2)), total: sum.toFixed(2) }),
  );
}
process.stdout.write(`{"loads":[\n${loads.join(',\n')}\n],"total":"${total.toFixed(2)}"}\n`);
