/**
 * Records a laboratory's results as one of the two sides enters them: whoever did is kept, since the other side may
 * confirm or contest them.
 */
import type { Entering } from '../../journal/chain.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { insertResults, type ResultRow, readResults } from '../../store/rows/result-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { fileFingerprint, type GivenFile } from '../files/keep-file.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import type { InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseUnusual } from '../refuse-unusual.ts';
import { doubtReports } from './doubt-reports.ts';
import { readReports, resultRow } from './read-reports.ts';
import { reportedText, resultFact } from './result-fact.ts';
import { samplesNamed } from './samples-named.ts';
import { withReports } from './with-reports.ts';

export interface ResultsToRecord {
  readonly agreementId: string;
  /** With the columns of `samples.csv`, and where known `laboratory`, `method`, `dry_matter_method` and `reported_on`. */
  readonly results: readonly InputRow[];
  /** The laboratory's own reports, PDF or picture, by sample. */
  readonly reports?: Readonly<Record<string, GivenFile>>;
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
  { agreementId, results, reports = {}, key, confirmed }: ResultsToRecord,
): Promise<readonly RecordedResult[]> {
  permit(context, 'record-result');
  const attached = Object.entries(reports).map(([sample, report]) => [sample, fileFingerprint(report)]);
  // Without a report the request is what it always was, so that its key is known again.
  const input = attached.length === 0 ? results : { results, reports: Object.fromEntries(attached) };
  const asked = { verb: 'record-result', subject: agreementId, key, input };
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
    if (!confirmed) {
      const doubted = read.flatMap(({ found }) => (before.has(found.sample) ? [] : [found]));
      const { feed } = found.agreement;
      refuseUnusual(await doubtReports(tx, { agreementId, feed, results: doubted }), confirmed);
    }
    const written = await withReports(tx, { rows: fresh, reports, recorded });
    await insertResults(tx, written, recorded);
    const facts = written.map(
      (row): Entering => ({ kind: 'result', fact: resultFact(row), subjectId: row.id, postings: [] }),
    );
    await enterFacts(tx, facts, recorded);
    return rows.map(({ id, sample }) => {
      const earlier = before.get(sample);
      return { id: earlier?.id ?? id, sample, isNew: earlier === undefined };
    });
  });
}

function refuseOtherResult(row: ResultRow, before: ResultRow | undefined): void {
  if (!before || reportedText(row) === reportedText(before)) return;
  throw new Refusal(
    'result-taken',
    `Sample ${row.sample} has a result already, with ${before.figures['dry-matter']} % dry matter. A result is never changed; if it looks wrong, ask for a retest.`,
  );
}
