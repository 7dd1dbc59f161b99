/**
 * Pricing alone, in memory: the product (rows validated, every rule applied) beside the plain decimal.js loop, over the
 * same cells, with equal totals.
 */
import { Decimal } from 'decimal.js';
import { printAmount } from '../../src/domain/settlement/line.ts';
import type { OracleSeason } from '../oracle/season.ts';
import { prepareProduct } from '../oracle/settle-by-product.ts';
import { plainPrice } from './plain-price.ts';
import { plainRows } from './plain-rows.ts';
import { BENCH_AGREEMENT } from './write-season.ts';

export interface InMemory {
  readonly productSeconds: number;
  readonly plainSeconds: number;
}

/** The faster of several rounds of each. Throws where the totals differ. */
export function measureInMemory(folder: string, rounds = 5): InMemory {
  const loads = plainRows(folder, 'loads.csv');
  const samples = plainRows(folder, 'samples.csv');
  const prices = plainRows(folder, 'prices.csv');
  const season = { agreement: BENCH_AGREEMENT, loads, samples, prices, elections: [], choices: [] };
  const bySample = new Map(samples.map((row) => [row['sample'], row]));
  const quotes = new Map(prices.map(({ date = '', price = '' }) => [date, price]));

  const product = (): string => {
    const { settle, money } = prepareProduct(season as unknown as OracleSeason);
    let total = 0n;
    for (const load of loads) {
      const outcome = settle(load);
      if (outcome.status === 'settled') total += outcome.total;
    }
    return printAmount(total, money);
  };
  const plain = (): string => {
    let total = new Decimal(0);
    for (const { delivered_at = '', gross = '', tare = '', sample } of loads) {
      const { dry_matter: dryMatter = '', starch = '', ndf = '' } = bySample.get(sample) ?? {};
      const quote = quotes.get(delivered_at.slice(0, 10)) ?? '';
      total = total.plus(plainPrice({ gross, tare, dryMatter, starch, ndf, quote }).sum);
    }
    return total.toFixed(2);
  };
  const totals = new Set<string>();
  const fastest = (work: () => string): number =>
    Math.min(
      ...Array.from({ length: rounds }, () => {
        const started = performance.now();
        totals.add(work());
        return (performance.now() - started) / 1000;
      }),
    );
  const measured = { productSeconds: fastest(product), plainSeconds: fastest(plain) };
  if (totals.size !== 1) throw new Error(`Totals differ: ${[...totals].join(', ')}`);
  return measured;
}
