/**
 * A table of a season's folder as texts by column, for rows that have been validated already.
 */
import { access } from 'node:fs/promises';
import { join } from 'node:path';
import type { TableShape } from '../domain/tables/table-shape.ts';
import { UnreadableFile } from './read-bytes.ts';
import { readCsv } from './read-csv.ts';

/** Rows in file order, many at a time; none where the file is not there. Throws `UnreadableFile`. */
export async function* readTable(
  folder: string,
  shape: TableShape,
): AsyncGenerator<readonly Readonly<Record<string, string>>[]> {
  const path = join(folder, shape.file);
  const isThere = await access(path).then(
    () => true,
    () => false,
  );
  if (!isThere) return;
  const table = await readCsv({
    path,
    shape,
    report: (problem) => {
      throw new UnreadableFile(problem);
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
