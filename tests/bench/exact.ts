/**
 * `npm run bench -- --exact`: a million generated loads against the exact-fraction oracle, figure by figure.
 */
import { compareSeason } from '../oracle/compare-season.ts';

/** Seeds begin past those of the test suite. */
const FIRST_SEED = 1_000_000;

/** Returns how many loads differ. */
export function compareExactly(least: number, say: (line: string) => void): number {
  const started = performance.now();
  let loads = 0;
  let settled = 0;
  let different = 0;
  for (let seed = FIRST_SEED; loads < least; seed++) {
    const compared = compareSeason(seed);
    for (const difference of compared.differences) say(difference);
    loads += compared.loads;
    settled += compared.settled;
    different += compared.differences.length;
  }
  const seconds = ((performance.now() - started) / 1000).toFixed(0);
  say(`${loads} generated loads (${settled} settled) against the oracle: ${different} differ; ${seconds} s`);
  return different;
}
