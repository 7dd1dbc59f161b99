/**
 * Two books of a season matched, with planted differences of which the truth is known: found, named and none invented,
 * and how the time grows with the rows.
 */
import { matchLists } from '../../src/domain/matching/match-lists.ts';
import { type Books, generateBooks } from '../domain/matching/generate-books.ts';
import { judgeBooks } from '../domain/matching/judge-books.ts';
import { PLANTED_KINDS } from '../domain/matching/plant.ts';

const SIZES = [12_500, 25_000, 50_000, 100_000];
const ROUNDS = 7;
/** One row in fifty is off. */
const PLANTED_SHARE = 50;
const SEED = 20_261_128;

/** My list without its numbers: all is left to the second pass. */
function withoutTickets({ mine, record }: Books): Lists {
  return { mine: mine.map((row) => ({ ...row, ticket: null })), record };
}

type Lists = Pick<Books, 'mine' | 'record'>;

/**
 * Seconds for each, the quickest of some rounds, of which each takes all sizes in turn: what else the machine does only
 * ever adds, and does so to all alike.
 */
function quickest(each: readonly Lists[], work: (lists: Lists) => unknown = matched): number[] {
  const best = each.map(() => Number.POSITIVE_INFINITY);
  for (let round = 0; round < ROUNDS; round++) {
    for (const [index, lists] of each.entries()) {
      const started = performance.now();
      work(lists);
      best[index] = Math.min(best[index] ?? 0, (performance.now() - started) / 1000);
    }
  }
  return best;
}

const matched = (lists: Lists) => matchLists(lists, { decimals: 2 });

/** What n log n is on this machine, caches and all: both lists sorted by ticket. */
const sorted = ({ mine, record }: Lists) =>
  [mine, record].map((rows) =>
    rows.toSorted((a, b) => ((a.ticket ?? '') < (b.ticket ?? '') ? -1 : a.ticket === b.ticket ? 0 : 1)),
  );

/** Measures, says the figures, and whether every planted difference was found and none invented. */
export function measureMatching(say: (line: string) => void): boolean {
  const books = SIZES.map((rows) => generateBooks({ rows, planted: rows / PLANTED_SHARE, seed: SEED }));
  const seconds = quickest(books);
  let isRight = true;
  for (const [index, each] of books.entries()) {
    const { missed, invented } = judgeBooks(each);
    isRight &&= missed.length === 0 && invented.length === 0;
    for (const line of [...missed, ...invented].slice(0, 20)) say(`  ${line}`);
    say(
      `${taken(seconds, index)}; ${each.truth.size.toLocaleString('en')} planted of ${PLANTED_KINDS.length} kinds, ${missed.length} missed, ${invented.length} invented`,
    );
  }
  const bare = books.map(withoutTickets);
  const secondsBare = quickest(bare);
  for (const [index, each] of bare.entries()) {
    const pairs = matchLists(each, { decimals: 2 }).filter(({ kind }) => kind === 'pair').length;
    say(
      `${taken(secondsBare, index)}; no ticket in the list, ${pairs.toLocaleString('en')} pairs by likeness`,
    );
  }
  const secondsSorted = quickest(books, sorted);
  const last = SIZES.length - 1;
  say(
    `sorting both lists by ticket, for comparison: ${((secondsSorted[last] ?? 0) / (secondsSorted[0] ?? 1)).toFixed(2)} times from the first size to the last`,
  );
  return isRight;
}

/** The figure of one size, and how much more it is than that of the first, beside what n log n makes of it. */
function taken(seconds: readonly number[], index: number): string {
  const [rows, first] = [SIZES[index] ?? 0, SIZES[0] ?? 1];
  const [own = 0, least = 1] = [seconds[index], seconds[0]];
  const head = `${rows.toLocaleString('en')} rows matched: ${own.toFixed(2)} s, quickest of ${ROUNDS}`;
  if (index === 0) return head;
  const expected = (rows * Math.log(rows)) / (first * Math.log(first));
  return `${head}, ${(own / least).toFixed(2)} times that of ${first.toLocaleString('en')} (n log n: ${expected.toFixed(2)})`;
}
