/**
 * Results of a file beside those that are recorded.
 */
import { TESTED } from '../../domain/agreement/measures.ts';
import { columnOf } from '../../domain/tables/table-shape.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type ResultRow, readResults } from '../../store/rows/result-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import { readReports, resultRow } from '../results/read-reports.ts';
import { type Difference, isSame, type Judge, type Judgement, NEW, recordedAs } from './judgement.ts';

export function judgeResults(tx: Transaction, found: FoundAgreement): Judge {
  return {
    read: (rows) => readReports(found, rows),
    compare: async (rows) => {
      const results = readReports(found, rows).map((read) =>
        resultRow(read, { id: '', sampleId: '', enteredBy: null }),
      );
      const names = results.map(({ sample }) => sample);
      const recorded = await readResults(tx, found.row.id, names);
      return results.map((result): Judgement => {
        const before = recorded.get(result.sample);
        return before ? recordedAs(differences(result, before)) : NEW;
      });
    },
  };
}

/** By our columns. What the file does not say is no difference. */
function differences(given: ResultRow, recorded: ResultRow): Difference[] {
  const pairs: [column: string, was: string | null, is: string | null][] = [
    ['basis', recorded.basis, given.basis],
    ...TESTED.map((measure): [string, string | null, string | null] => [
      columnOf(measure),
      recorded.figures[measure],
      given.figures[measure],
    ]),
    ['laboratory', recorded.laboratory, given.laboratory],
    ['method', recorded.method, given.method],
    ['dry_matter_method', recorded.dryMatterMethod, given.dryMatterMethod],
    ['reported_on', recorded.reportedOn, given.reportedOn],
  ];
  return pairs.flatMap(([column, was, is]) =>
    is === null || isSame(was, is) ? [] : [{ column, recorded: was ?? 'nothing', given: is }],
  );
}
