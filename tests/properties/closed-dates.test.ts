/**
 * What has settled stays settled: a quote that arrives later, dated later, changes no settled load, and settling the
 * same evidence again gives the same outcome.
 */
import { describe, expect, test } from 'vitest';
import { generateSeason } from '../oracle/generate-season.ts';
import type { OracleSeason } from '../oracle/season.ts';
import { prepareProduct } from '../oracle/settle-by-product.ts';

const DAY = 86_400_000;

/** The season with some more quotes of each series, each dated after its newest. */
function withLaterQuotes(season: OracleSeason, seed: number): OracleSeason {
  const newest = new Map<string, string>();
  for (const { series, date } of season.prices) {
    if (date > (newest.get(series) ?? '')) newest.set(series, date);
  }
  const later = [...newest].flatMap(([series, date]) =>
    [1, 3, 30, 61].map((days, index) => ({
      series,
      date: new Date(Date.parse(`${date}T00:00:00Z`) + days * DAY).toISOString().slice(0, 10),
      price: `${(seed % 7) + index}.125`,
    })),
  );
  return { ...season, prices: [...season.prices, ...later] };
}

describe('settled loads', () => {
  test('stay as they are when later-dated quotes arrive (300 seasons), while others come to settle', () => {
    let kept = 0;
    let freed = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const season = generateSeason(seed);
      const before = prepareProduct(season);
      const after = prepareProduct(withLaterQuotes(season, seed));
      for (const row of season.loads) {
        const cells = row as unknown as Readonly<Record<string, string>>;
        const first = before.settle(cells);
        const second = after.settle(cells);
        if (first.status === 'settled') {
          kept++;
          expect(after.print(second), `seed ${seed}, ticket ${row.ticket}`).toEqual(before.print(first));
        } else if (second.status === 'settled') freed++;
      }
    }
    expect(kept).toBeGreaterThan(2_000);
    expect(freed).toBeGreaterThan(100);
  });
});
