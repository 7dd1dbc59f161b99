/**
 * A season's rows by plain splitting at commas: right for the benchmark's files, which quote nothing.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

export type Cells = Readonly<Record<string, string>>;

export function plainRows(folder: string, file: string): Cells[] {
  const [head = '', ...lines] = readFileSync(join(folder, file), 'utf8').trimEnd().split('\n');
  const columns = head.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(columns.map((column, index) => [column, cells[index] ?? '']));
  });
}
