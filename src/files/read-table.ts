/**
 * A table of a season's folder as texts by column, for rows that have been validated already.
 */
import { join } from 'node:path';
import type { TableShape } from '../domain/tables/table-shape.ts';
import { UnreadableFile } from './read-bytes.ts';
import { readCsv } from './read-csv.ts';

/** Rows in file order, many at a time; none where the file is not there. Throws `UnreadableFile`. */
export async function* readTable(
  folder: string,
  shape: TableShape,
): AsyncGenerator<readonly Readonly<Record<string, string>>[]> {
  let isThere = true;
  const table = await readCsv({
    path: join(folder, shape.file),
    shape,
    report: (problem) => {
      isThere = problem.message !== NOT_THERE;
      if (isThere) throw new UnreadableFile(problem);
    },
  });
  if (!table) return;
  for await (const batch of table.batches) {
    yield batch.map(({ cell }) => {
      const filled = table.header.filter((column) => cell(column) !== '');
      return Object.fromEntries(filled.map((column) => [column, cell(column)]));
    });
  }
}

const NOT_THERE = 'is not there';
