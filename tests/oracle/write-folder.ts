/**
 * An oracle season as the files of a folder.
 */
import type { OracleSeason } from './season.ts';

type Cells = Readonly<Record<string, string | undefined>>;

/** The files by name; a table without rows is left out, but for the loads. */
export function seasonFiles(season: OracleSeason): Record<string, string | undefined> {
  const table = (rows: readonly object[]) => (rows.length === 0 ? undefined : csv(rows as readonly Cells[]));
  return {
    'agreement.json': JSON.stringify(season.agreement),
    'loads.csv': csv(season.loads as unknown as readonly Cells[]),
    'samples.csv': table(season.samples),
    'prices.csv': table(season.prices),
    'elections.csv': table(season.elections),
    'choices.csv': table(season.choices),
  };
}

/** All columns that any row has, each cell in quotes. */
function csv(rows: readonly Cells[]): string {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const lines = rows.map((row) => columns.map((column) => quoted(row[column] ?? '')).join(','));
  return `${columns.join(',')}\n${lines.join('\n')}\n`;
}

function quoted(cell: string): string {
  return `"${cell.replaceAll('"', '""')}"`;
}
