/**
 * A preview and its end in words, by the names that the person's own file gives its columns.
 */
import { labelOf } from '../../domain/tables/column-match.ts';
import { type ImportKind, WANTED } from '../../domain/tables/wanted-columns.ts';
import type { ImportPreview } from '../../usecases/import/preview-import.ts';
import type { TakenImport } from '../../usecases/import/take-import.ts';
import type { Problem } from '../../usecases/refusal.ts';
import type { ToldPreview } from './import-state.ts';

/** As many as a person will read on a page. */
const MOST_SHOWN = 200;
const FRESH_SHOWN = 10;

export function tellPreview(preview: ImportPreview, header: readonly string[]): ToldPreview {
  const { kind, rows, counts, unusual, refused, isTaken } = preview;
  const of = (standing: string) => rows.filter((row) => row.standing === standing);
  const fresh = of('new').slice(0, FRESH_SHOWN);
  const columns = WANTED[kind]
    .map(({ name }) => name)
    .filter((name) => fresh.some(({ texts }) => texts[name]));
  return {
    counts,
    wrong: of('wrong')
      .slice(0, MOST_SHOWN)
      .map(({ line, problems }) => ({ line, told: problems.map((one) => tellProblem(one, kind, header)) })),
    differs: of('differs')
      .slice(0, MOST_SHOWN)
      .map(({ line, differences }) => ({
        line,
        told: differences.map(
          ({ column, recorded, given }) =>
            `${labelOf(kind, column)}: ${given} in the file, ${recorded} recorded`,
        ),
      })),
    columns: columns.map((name) => labelOf(kind, name)),
    fresh: fresh.map(({ line, texts }) => ({ line, cells: columns.map((name) => texts[name] ?? '') })),
    unusual,
    refused,
    isTaken,
  };
}

/** Names of ours that are not the file's own are said by their label. */
export function tellProblem(
  { column, message }: Omit<Problem, 'row'>,
  kind: ImportKind,
  header: readonly string[] = [],
): string {
  if (column === undefined) return message;
  if (header.includes(column)) return `${column} ${message}`;
  const named: Readonly<Record<string, string>> = {
    file: 'The file',
    dateOrder: 'The order of dates',
    timeOffset: 'The offset of times',
  };
  return `${named[column] ?? labelOf(kind, column)} ${message}`;
}

const NOUNS: Readonly<Record<ImportKind, readonly [one: string, many: string]>> = {
  tickets: ['load', 'loads'],
  results: ['result', 'results'],
  quotes: ['price', 'prices'],
};

/** "1,999 loads" and the like. */
export function counted(count: number, kind: ImportKind): string {
  const [one, many] = NOUNS[kind];
  return count === 1 ? `one ${one}` : `${count} ${many}`;
}

export function tellTaken(
  { added, there, leftOut, isRepeat }: TakenImport,
  kind: ImportKind,
  fileName: string,
): string {
  if (isRepeat) return `${fileName} was brought in before. Nothing was added.`;
  const parts = [
    added === 0
      ? 'Nothing was new'
      : `${counted(added, kind)} from ${fileName} ${added === 1 ? 'is' : 'are'} recorded`,
    ...(there > 0 ? [`${there} ${there === 1 ? 'was' : 'were'} there already`] : []),
    ...(leftOut > 0
      ? [`${leftOut} ${leftOut === 1 ? 'differs' : 'differ'} and ${leftOut === 1 ? 'was' : 'were'} left out`]
      : []),
  ];
  const told = `${parts.join('; ')}.`;
  return `${told.charAt(0).toUpperCase()}${told.slice(1)}`;
}
