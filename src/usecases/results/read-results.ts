/**
 * The results of an agreement as they stand, in the columns by which they are recorded and put right.
 */
import { TESTED } from '../../domain/agreement/measures.ts';
import { columnOf } from '../../domain/tables/table-shape.ts';
import { readResultAnswers } from '../../store/rows/result-answer-rows.ts';
import { type ResultRow, readResultVersions, readSampleNames } from '../../store/rows/result-rows.ts';
import { findAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import type { InputRow } from '../read-input-rows.ts';
import { unusableResults } from './unusable-results.ts';

export interface ResultView {
  readonly id: string;
  readonly sample: string;
  /** 1, and one more with each correction. */
  readonly version: number;
  /** Why it corrects the version before. */
  readonly reason: string | null;
  /** Whether the caller's own party entered it; null where it was not asked then. */
  readonly isOurs: boolean | null;
  /** Why it does not count for now: a side contests it, or it cannot be priced. */
  readonly unusable: string | null;
  /** SHA-256 of the report that is attached. */
  readonly report: string | null;
  /** With the columns of `recordResults`; those that say nothing are left out. */
  readonly result: InputRow;
}

/** By the name of the sample. Refuses `not-allowed`, and `not-found` for an agreement of others. */
export async function readResults(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<readonly ResultView[]> {
  permit(context, 'read');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    const terms = await findAgreement(tx, agreementId);
    const names = await readSampleNames(tx, agreementId);
    const versions = await readResultVersions(tx, agreementId, names);
    const answers = await readResultAnswers(tx, agreementId);
    const unusable = unusableResults({ terms, versions, answers });
    // Versions come oldest first, so the last of a sample is what stands.
    const results = new Map(versions.map((row) => [row.sample, row]));
    return names.flatMap((name): ResultView[] => {
      const row = results.get(name);
      if (!row) return [];
      const { id, sample, version, reason, enteredBy, report } = row;
      const isOurs = enteredBy === null ? null : enteredBy === partyId;
      const why = unusable.get(name) ?? null;
      return [
        { ...{ id, sample, version, reason, isOurs, report }, unusable: why, result: resultColumns(row) },
      ];
    });
  });
}

/** A result's row as `readReports` reads it. */
function resultColumns(row: ResultRow): InputRow {
  const cells: (readonly [string, string | null])[] = [
    ['sample', row.sample],
    ['basis', row.basis],
    ...TESTED.map((measure) => [columnOf(measure), row.figures[measure]] as const),
    ['laboratory', row.laboratory],
    ['method', row.method],
    ['dry_matter_method', row.dryMatterMethod],
    ['reported_on', row.reportedOn],
  ];
  return Object.fromEntries(cells.filter((cell): cell is [string, string] => cell[1] !== null));
}
