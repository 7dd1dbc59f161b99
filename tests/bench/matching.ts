/**
 * Two books of a season matched, with planted differences of which the truth is known: found, named and none invented,
 * and how the time grows with the rows.
 */
import { matchLists } from '../../src/domain/matching/match-lists.ts';
import { type Books, generateBooks } from '../domain/matching/generate-books.ts';
import { judgeBooks } from '../domain/matching/judge-books.ts';
import { PLANTED_KINDS } from '../domain/matching/plant.ts';

const SIZES = [12_500, 25_000, 50_000, 100_000];
const ROUNDS = 3;
/** One row in fifty is off. */
const PLANTED_SHARE = 50;
const SEED = 20_261_128;

/** The rows of both lists that numbers bring together, none of which has one: all is left to the second pass. */
function withoutTickets({ mine, record }: Books): Pick<Books, 'mine' | 'record'> {
  return { mine: mine.map((row) => ({ ...row, ticket: null })), record };
}

/** Seconds of the quickest of some rounds: what else the machine does only ever adds. */
function quickest(work: () => number): { seconds: number; count: number } {
  let best = { seconds: Number.POSITIVE_INFINITY, count: 0 };
  for (let round = 0; round < ROUNDS; round++) {
    const started = performance.now();
    const count = work();
    const seconds = (performance.now() - started) / 1000;
    if (seconds < best.seconds) best = { seconds, count };
  }
  return best;
}

/** Measures, says the figures, and whether every planted difference was found and none invented. */
export function measureMatching(say: (line: string) => void): boolean {
  let isRight = true;
  const grow = growth(say);
  for (const rows of SIZES) {
    const planted = rows / PLANTED_SHARE;
    const books = generateBooks({ rows, planted, seed: SEED });
    const { seconds } = quickest(() => matchLists(books, { decimals: 2 }).length);
    const { missed, invented } = judgeBooks(books);
    isRight &&= missed.length === 0 && invented.length === 0;
    for (const line of [...missed, ...invented].slice(0, 20)) say(`  ${line}`);
    grow(
      { rows, seconds },
      `${planted.toLocaleString('en')} planted of ${PLANTED_KINDS.length} kinds, ${missed.length} missed, ${invented.length} invented`,
    );
  }
  const growBare = growth(say);
  for (const rows of SIZES) {
    const books = withoutTickets(generateBooks({ rows, planted: rows / PLANTED_SHARE, seed: SEED }));
    const { seconds, count } = quickest(
      () => matchLists(books, { decimals: 2 }).filter(({ kind }) => kind === 'pair').length,
    );
    growBare({ rows, seconds }, `no ticket in the list, ${count.toLocaleString('en')} pairs by likeness`);
  }
  return isRight;
}

/** Says each figure beside what n log n makes of the one before. */
function growth(say: (line: string) => void) {
  let before: { rows: number; seconds: number } | undefined;
  return (now: { rows: number; seconds: number }, what: string) => {
    const head = `${now.rows.toLocaleString('en')} rows matched: ${now.seconds.toFixed(2)} s, quickest of ${ROUNDS}; ${what}`;
    if (!before) say(head);
    else {
      const expected = (now.rows * Math.log(now.rows)) / (before.rows * Math.log(before.rows));
      say(
        `${head}; ${(now.seconds / before.seconds).toFixed(2)} times the one before, n log n makes ${expected.toFixed(2)}`,
      );
    }
    before = now;
  };
}
