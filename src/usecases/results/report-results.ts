/**
 * A laboratory enters results of samples itself. It reads no agreement: it names samples that are there, and its
 * figures are held to what every laboratory's are. A correction of its own is a new version that says why; what has
 * settled from the one before stays so until both sides agree.
 */
import { clerkChecks } from '../../domain/samples/clerk-checks.ts';
import type { Entering } from '../../journal/chain.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { insertResults, type ResultRow, readResults, readSampleIds } from '../../store/rows/result-rows.ts';
import { type Context, permit, stamp } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { fileFingerprint, type GivenFile } from '../files/keep-file.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { findLaboratoryAccess } from '../laboratories/find-access.ts';
import { badInput, type InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseUnusual } from '../refuse-unusual.ts';
import { readReports, resultRow } from './read-reports.ts';
import type { RecordedResult } from './record-results.ts';
import { reportedText, resultFact } from './result-fact.ts';
import { withReports } from './with-reports.ts';

export interface ResultsToReport {
  readonly agreementId: string;
  /** With the columns of `recordResults`; the laboratory is the caller's own. */
  readonly results: readonly InputRow[];
  /** The reports as they went out, by sample. */
  readonly reports?: Readonly<Record<string, GivenFile>>;
  /** Why results that the laboratory reported before are corrected. */
  readonly reason?: string;
  readonly key?: string;
  readonly confirmed?: boolean;
}

/**
 * Returns a record for each sample, in their order. Refuses `not-allowed`, `not-found` where the agreement does not let
 * the laboratory in, `bad-input` (also a sample that is not there), `result-taken` where somebody else entered one, or
 * it was reported before with other figures and no reason is given, and `unusual`.
 */
export async function reportResults(
  context: Context,
  { agreementId, results, reports = {}, reason, key, confirmed }: ResultsToReport,
): Promise<readonly RecordedResult[]> {
  permit(context, 'record-result');
  const { partyId, personId } = context.caller;
  const attached = Object.entries(reports).map(([sample, report]) => [sample, fileFingerprint(report)]);
  const input = { results, reports: Object.fromEntries(attached), reason: reason ?? null };
  return await doOnce(context, { verb: 'report-results', subject: agreementId, key, input }, async (tx) => {
    await findLaboratoryAccess(tx, context, agreementId);
    const read = readReports({ versions: [] }, results);
    await lockAgreement(tx, agreementId);
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
    const names = read.map(({ found }) => found.sample);
    const ids = await readSampleIds(tx, agreementId, names);
    refuseUnknownSamples(names, ids);
    const before = await readResults(tx, agreementId, names);
    const laboratory = await ownName(tx, partyId);
    const rows = read.map(({ found, ...row }): ResultRow => {
      const earlier = before.get(found.sample);
      const given = resultRow(
        { found, ...row },
        { id: context.newId(), sampleId: ids.get(found.sample) ?? '', enteredBy: partyId },
      );
      return { ...given, laboratory, version: (earlier?.version ?? 0) + 1, report: earlier?.report ?? null };
    });
    const fresh = rows.filter((row) => !isThere(row, before.get(row.sample)));
    for (const row of fresh) refuseTaken(row, before.get(row.sample), { partyId, reason });
    const wanted = new Set(fresh.map(({ sample }) => sample));
    refuseUnusual(
      read.flatMap(({ found }) =>
        wanted.has(found.sample) ? clerkChecks(found, { feed: undefined, readings: [] }) : [],
      ),
      confirmed,
    );
    const why = reason === undefined ? null : readReason(reason);
    const written = await withReports(tx, { rows: fresh, reports, recorded });
    const versions = written.map((row) => ({ ...row, reason: row.version === 1 ? null : why }));
    await insertResults(tx, versions, recorded);
    const facts = versions.map(
      (row): Entering => ({ kind: 'result', fact: resultFact(row), subjectId: row.id, postings: [] }),
    );
    await enterFacts(tx, facts, recorded);
    return rows.map(({ id, sample }) => {
      const isNew = wanted.has(sample);
      return { id: isNew ? id : (before.get(sample)?.id ?? id), sample, isNew };
    });
  });
}

function refuseUnknownSamples(names: readonly string[], ids: ReadonlyMap<string, string>): void {
  const problems = names.flatMap((name, row) =>
    ids.has(name) ? [] : [{ row, column: 'sample', message: `${name} is not among the samples here` }],
  );
  if (problems.length > 0) throw badInput(problems);
}

async function ownName(tx: Transaction, partyId: string): Promise<string> {
  return (await tx.party.findUniqueOrThrow({ where: { id: partyId }, select: { name: true } })).name;
}

/** Whether it was reported already, the same. */
function isThere(row: ResultRow, before: ResultRow | undefined): boolean {
  return before !== undefined && reportedText(row) === reportedText(before);
}

function refuseTaken(
  row: ResultRow,
  before: ResultRow | undefined,
  { partyId, reason }: { readonly partyId: string; readonly reason: string | undefined },
): void {
  if (!before || (before.enteredBy === partyId && reason !== undefined)) return;
  throw new Refusal(
    'result-taken',
    before.enteredBy === partyId
      ? `You reported sample ${row.sample} before, with other figures. Say why they are corrected.`
      : `The result of sample ${row.sample} was entered by somebody else. A party of the agreement puts it right.`,
  );
}
