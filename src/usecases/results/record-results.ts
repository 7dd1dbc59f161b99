import { warnOfDryMatter, warnOfSum } from '../../domain/tables/sample-row.ts';
import type { Entering } from '../../journal/chain.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { insertResults, type ResultRow, readResults } from '../../store/rows/result-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import type { InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseUnusual } from '../refuse-unusual.ts';
import { readReports, resultRow } from './read-reports.ts';
import { resultFact } from './result-fact.ts';
import { samplesNamed } from './samples-named.ts';

export interface ResultsToRecord {
  readonly agreementId: string;
  /** With the columns of `samples.csv`, and where known `laboratory`, `method`, `dry_matter_method` and `reported_on`. */
  readonly results: readonly InputRow[];
  readonly key?: string;
  /** Unusual figures were looked at, and are right. */
  readonly confirmed?: boolean;
}

export interface RecordedResult {
  readonly id: string;
  readonly sample: string;
  readonly isNew: boolean;
}

/**
 * Returns a record for each sample, in their order. A sample that no ticket names yet is recorded with it.
 * Refuses `not-allowed`, `bad-input`, `not-found`, `result-taken` where a sample has another result already,
 * and `unusual` where figures are hardly right and were not confirmed.
 */
export async function recordResults(
  context: Context,
  { agreementId, results, key, confirmed }: ResultsToRecord,
): Promise<readonly RecordedResult[]> {
  permit(context, 'record-result');
  const asked = { verb: 'record-result', subject: agreementId, key, input: results };
  return await doOnce(context, asked, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const read = readReports(found, results);
    await lockAgreement(tx, agreementId);
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    const names = read.map(({ found }) => found.sample);
    const before = await readResults(tx, agreementId, names);
    const sampleIds = await samplesNamed(tx, context, { names, recorded });
    const rows = read.map((row) =>
      resultRow(row, {
        id: context.newId(),
        sampleId: sampleIds.get(row.found.sample) ?? '',
        enteredBy: context.caller.partyId,
      }),
    );
    for (const row of rows) refuseOtherResult(row, before.get(row.sample));
    const fresh = rows.filter(({ sample }) => !before.has(sample));
    refuseUnusual(
      read.flatMap(({ found }) =>
        before.has(found.sample) ? [] : [warnOfDryMatter(found), warnOfSum(found)],
      ),
      confirmed,
    );
    await insertResults(tx, fresh, recorded);
    const facts = fresh.map(
      (row): Entering => ({ kind: 'result', fact: resultFact(row), subjectId: row.id, postings: [] }),
    );
    await enterFacts(tx, facts, recorded);
    return rows.map(({ id, sample }) => {
      const earlier = before.get(sample);
      return { id: earlier?.id ?? id, sample, isNew: earlier === undefined };
    });
  });
}

/** What the laboratory reported, whoever entered it. */
function reportedText(row: ResultRow): string {
  const { sample, laboratory, method, reportedOn, basis, figures, dryMatterMethod } = resultFact(row);
  return JSON.stringify([sample, laboratory, method, reportedOn, basis, figures, dryMatterMethod ?? null]);
}

function refuseOtherResult(row: ResultRow, before: ResultRow | undefined): void {
  if (!before || reportedText(row) === reportedText(before)) return;
  throw new Refusal(
    'result-taken',
    `Sample ${row.sample} has a result already, with ${before.figures['dry-matter']} % dry matter. A result is never changed; if it looks wrong, ask for a retest.`,
  );
}
