/**
 * The plainest straight-line script that prices the benchmark's season with decimal.js, for scale: it splits lines at
 * commas, checks nothing, explains nothing and prints amounts. It is right only as far as its 40 digits reach.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Decimal } from 'decimal.js';

Decimal.set({ precision: 40, rounding: Decimal.ROUND_HALF_UP });
const folder = process.argv[2] ?? '.';
const rowsOf = (file: string) =>
  readFileSync(join(folder, file), 'utf8')
    .trimEnd()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','));

const quotes = new Map(rowsOf('prices.csv').map(([, date = '', price = '']) => [date, new Decimal(price)]));
const samples = new Map(rowsOf('samples.csv').map(([sample = '', , ...figures]) => [sample, figures]));
const loads: string[] = [];
let total = new Decimal(0);
for (const [ticket, deliveredAt = '', gross = '', tare = '', , sample = ''] of rowsOf('loads.csv')) {
  const [dryMatter = '', starch = '', ndf = ''] = samples.get(sample) ?? [];
  const net = new Decimal(gross).minus(tare);
  const dry = net.times(dryMatter).div(100);
  const price = Decimal.max(
    '3.60',
    Decimal.min('5.40', (quotes.get(deliveredAt.slice(0, 10)) ?? new Decimal(0)).plus('-0.15')),
  );
  const perPound = price.div(new Decimal('56').times('84.5').div(100));
  const grain = Decimal.min(1, new Decimal(starch).div('71'));
  const points = Decimal.max(0, new Decimal(ndf).minus(26));
  const first = Decimal.min(4, points);
  const perTon = first.times('-0.80').plus(points.minus(first).times('-1.50'));
  const amounts = [
    dry.times(grain).times(perPound),
    dry.times(new Decimal(1).minus(grain)).times(perPound).times('0.60'),
    dry.div(2000).times(perTon),
    net.div(2000).times('-4.25'),
  ].map((amount) => amount.toDecimalPlaces(2));
  const sum = amounts.reduce((left, right) => left.plus(right));
  total = total.plus(sum);
  loads.push(
    JSON.stringify({ ticket, lines: amounts.map((amount) => amount.toFixed(2)), total: sum.toFixed(2) }),
  );
}
process.stdout.write(`{"loads":[\n${loads.join(',\n')}\n],"total":"${total.toFixed(2)}"}\n`);
