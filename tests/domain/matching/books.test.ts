import { expect, test } from 'vitest';
import { generateBooks } from './generate-books.ts';
import { judgeBooks } from './judge-books.ts';
import { PLANTED_KINDS } from './plant.ts';

test.each([1, 2, 3])(
  '200 differences in 5,000 rows are found and named, and none is invented (seed %i)',
  (seed) => {
    const books = generateBooks({ rows: 5000, planted: 200, seed });
    expect(new Set([...books.truth.values()].map(({ kind }) => kind)).size).toBe(PLANTED_KINDS.length);
    const { missed, invented } = judgeBooks(books);
    expect({ missed, invented }).toEqual({ missed: [], invented: [] });
  },
);

test.each([1, 2, 3, 4, 5, 6])('so are 1,500 that get in each other’s way (seed %i)', (seed) => {
  const { missed, invented } = judgeBooks(generateBooks({ rows: 5000, planted: 1500, seed }));
  expect({ missed, invented }).toEqual({ missed: [], invented: [] });
});
