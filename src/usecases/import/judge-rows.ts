/**
 * What is known of each row of an import before anything is written: new, there already, different from what is
 * recorded, or wrong. The rules are those of the forms, row by row.
 */
import { type MatchedRow, ownName } from '../../domain/tables/matched-rows.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import type { InputRow } from '../read-input-rows.ts';
import { type Problem, Refusal } from '../refusal.ts';
import { judgeQuotes } from './judge-quotes.ts';
import { judgeResults } from './judge-results.ts';
import { judgeTickets } from './judge-tickets.ts';
import type { Judge, Judgement } from './judgement.ts';
import type { OpenedImport } from './open-import.ts';

export interface JudgedRow extends Judgement {
  readonly line: number;
  readonly texts: InputRow;
}

/** Every row in the file's order. Problems have the names that the file gives its columns. */
export async function judgeRows(
  tx: Transaction,
  context: Context,
  { found, opened }: { readonly found: FoundAgreement; readonly opened: OpenedImport },
): Promise<readonly JudgedRow[]> {
  const { match, header, rows } = opened;
  const judge = judgeOf(tx, context, { found, opened });
  const faults = faultsOf(judge, rows);
  const nameOf = (column: string) => ownName(match, header, column);
  const named = ({ column, message }: Omit<Problem, 'row'>) =>
    column === undefined ? { message } : { column: nameOf(column), message };
  const problems = rows.map((row, index) => {
    // A cell that could not be turned into a text of ours is empty to these rules, and was named already.
    const own = (faults.get(index) ?? []).filter(({ column }) => !row.unread.includes(column ?? ''));
    return [...row.problems, ...own.map(named)];
  });
  const good = rows.filter((_, index) => problems[index]?.length === 0);
  const judged = new Map(
    (await judge.compare(good.map(({ texts }) => texts))).map((of, at) => [good[at]?.line, of]),
  );
  return rows.map(({ line, texts }, index): JudgedRow => {
    const judgement = judged.get(line);
    if (!judgement)
      return { line, texts, standing: 'wrong', differences: [], problems: problems[index] ?? [] };
    return { line, texts, ...judgement, problems: judgement.problems.map(named) };
  });
}

function judgeOf(
  tx: Transaction,
  context: Context,
  { found, opened }: { readonly found: FoundAgreement; readonly opened: OpenedImport },
): Judge {
  switch (opened.match.kind) {
    case 'tickets':
      return judgeTickets(tx, found);
    case 'results':
      return judgeResults(tx, found);
    case 'quotes':
      return judgeQuotes(tx, context, found);
  }
}

/** The faults that the forms' rules find, by row. That a row stands twice was said already, with its line. */
function faultsOf(judge: Judge, rows: readonly MatchedRow[]): ReadonlyMap<number, readonly Problem[]> {
  try {
    judge.read(rows.map(({ texts }) => texts));
    return new Map();
  } catch (error) {
    if (!(error instanceof Refusal) || error.code !== 'bad-input') throw error;
    const faults = new Map<number, Problem[]>();
    for (const problem of error.problems) {
      if (problem.row === undefined || problem.message.startsWith('stands in row')) continue;
      faults.set(problem.row, [...(faults.get(problem.row) ?? []), problem]);
    }
    return faults;
  }
}
