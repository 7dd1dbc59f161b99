/**
 * Samples and their results.
 */
import { TESTED, type Tested } from '../../domain/agreement/measures.ts';
import { columnOf } from '../../domain/tables/table-shape.ts';
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

export interface ResultRow {
  readonly id: string;
  readonly sampleId: string;
  readonly sample: string;
  /** 1, and one more with each correction by the laboratory. */
  readonly version: number;
  /** Why it corrects the one before; null for the first. */
  readonly reason: string | null;
  readonly laboratory: string | null;
  readonly method: string | null;
  readonly dryMatterMethod: string | null;
  readonly reportedOn: string | null;
  /** The party that entered it; null for what was recorded before that was asked. */
  readonly enteredBy: string | null;
  /** SHA-256 of the report that is attached. */
  readonly report: string | null;
  readonly basis: string;
  /** Decimal strings by measure; null where not reported. */
  readonly figures: Readonly<Record<Tested, string | null>>;
}

type FlatRow = Omit<ResultRow, 'figures'> & Readonly<Record<string, string | number | null>>;

const FIGURES = TESTED.map((measure) => `r.${columnOf(measure)}::text`).join(', ');
const SELECT = `SELECT r.id, r.sample_id AS "sampleId", s.name AS sample, r.version, r.reason, r.laboratory, r.method,
    r.dry_matter_method AS "dryMatterMethod", r.entered_by AS "enteredBy", r.report, r.reported_on::text AS "reportedOn", r.basis, ${FIGURES}
  FROM result r JOIN sample s ON s.agreement_id = r.agreement_id AND s.id = r.sample_id`;

function fromFlat(row: FlatRow): ResultRow {
  const { id, sampleId, sample, version, reason, laboratory, method } = row;
  const { dryMatterMethod, reportedOn, enteredBy, report, basis } = row;
  const figures = Object.fromEntries(
    TESTED.map((measure) => [measure, (row[columnOf(measure)] as string | null) ?? null]),
  );
  return {
    id,
    sampleId,
    sample,
    version,
    reason,
    laboratory,
    method,
    dryMatterMethod,
    reportedOn,
    enteredBy,
    report,
    basis,
    figures: figures as ResultRow['figures'],
  };
}

/** Every version of the results of an agreement's samples of these names, oldest first. */
export async function readResultVersions(
  tx: Transaction,
  agreementId: string,
  samples: readonly string[],
): Promise<readonly ResultRow[]> {
  const rows = await tx.$queryRawUnsafe<FlatRow[]>(
    `${SELECT} WHERE r.agreement_id = $1::uuid AND s.name = ANY($2::text[]) ORDER BY r.version`,
    agreementId,
    samples,
  );
  return rows.map(fromFlat);
}

/** A version of a result with the moment at which it was recorded, ISO 8601 in UTC. */
export type ResultRecord = ResultRow & { readonly recordedAt: string };

/** Every version of the results of an agreement: the first recorded sample first, its oldest version first. */
export async function readResultRecords(
  tx: Transaction,
  agreementId: string,
): Promise<readonly ResultRecord[]> {
  const rows = await tx.$queryRawUnsafe<(FlatRow & { recordedAt: string })[]>(
    `SELECT x.*, to_char(w.recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt"
     FROM (${SELECT} WHERE r.agreement_id = $1::uuid) x
     JOIN result w ON w.agreement_id = $1::uuid AND w.id = x.id
     JOIN sample s ON s.agreement_id = $1::uuid AND s.id = w.sample_id
     ORDER BY s.recorded_at, s.name, w.version`,
    agreementId,
  );
  return rows.map((row) => ({ ...fromFlat(row), recordedAt: row.recordedAt }));
}

/** Results of an agreement's samples of these names as they stand now, by sample. */
export async function readResults(
  tx: Transaction,
  agreementId: string,
  samples: readonly string[],
): Promise<ReadonlyMap<string, ResultRow>> {
  const versions = await readResultVersions(tx, agreementId, samples);
  return new Map(versions.map((row) => [row.sample, row]));
}

/** The names of an agreement's samples, in order. */
export async function readSampleNames(tx: Transaction, agreementId: string): Promise<readonly string[]> {
  const rows = await tx.$queryRawUnsafe<{ name: string }[]>(
    'SELECT name FROM sample WHERE agreement_id = $1::uuid ORDER BY name COLLATE "C"',
    agreementId,
  );
  return rows.map(({ name }) => name);
}

/** Ids of an agreement's samples of these names, by name. */
export async function readSampleIds(
  tx: Transaction,
  agreementId: string,
  names: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  const rows = await tx.$queryRawUnsafe<{ name: string; id: string }[]>(
    'SELECT name, id FROM sample WHERE agreement_id = $1::uuid AND name = ANY($2::text[])',
    agreementId,
    names,
  );
  return new Map(rows.map(({ name, id }) => [name, id]));
}

/** Samples that are named by a load and have no result yet, oldest first. */
export async function readAwaitedSamples(
  tx: Transaction,
  agreementId: string,
): Promise<readonly { readonly name: string; readonly loads: number }[]> {
  return await tx.$queryRawUnsafe(
    `SELECT s.name, count(sl.load_id)::int AS loads FROM sample s
     LEFT JOIN sample_load sl ON sl.agreement_id = s.agreement_id AND sl.sample_id = s.id
     WHERE s.agreement_id = $1::uuid
       AND NOT EXISTS (SELECT FROM result r WHERE r.agreement_id = s.agreement_id AND r.sample_id = s.id)
     GROUP BY s.name, s.recorded_at ORDER BY s.recorded_at, s.name`,
    agreementId,
  );
}

export interface Recorded {
  readonly agreementId: string;
  readonly recordedAt: string;
  readonly recordedBy: string;
}

/** Writes samples that are new. */
export async function insertSamples(
  tx: Transaction,
  samples: readonly { readonly id: string; readonly name: string }[],
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'sample', {
    agreement_id: ['uuid', samples.map(() => agreementId)],
    id: ['uuid', samples.map(({ id }) => id)],
    name: ['text', samples.map(({ name }) => name)],
    recorded_at: ['timestamptz', samples.map(() => recordedAt)],
    recorded_by: ['uuid', samples.map(() => recordedBy)],
  });
}

/** Writes results. */
export async function insertResults(
  tx: Transaction,
  results: readonly ResultRow[],
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'result', {
    agreement_id: ['uuid', results.map(() => agreementId)],
    id: ['uuid', results.map(({ id }) => id)],
    sample_id: ['uuid', results.map(({ sampleId }) => sampleId)],
    version: ['int', results.map(({ version }) => version)],
    reason: ['text', results.map(({ reason }) => reason)],
    laboratory: ['text', results.map(({ laboratory }) => laboratory)],
    method: ['text', results.map(({ method }) => method)],
    dry_matter_method: ['text', results.map(({ dryMatterMethod }) => dryMatterMethod)],
    entered_by: ['uuid', results.map(({ enteredBy }) => enteredBy)],
    report: ['text', results.map(({ report }) => report)],
    reported_on: ['date', results.map(({ reportedOn }) => reportedOn)],
    basis: ['text', results.map(({ basis }) => basis)],
    ...Object.fromEntries(
      TESTED.map((measure) => [
        columnOf(measure),
        ['numeric', results.map(({ figures }) => figures[measure])] as const,
      ]),
    ),
    recorded_at: ['timestamptz', results.map(() => recordedAt)],
    recorded_by: ['uuid', results.map(() => recordedBy)],
  });
}

/** A result by its id, and whether it is the newest of its sample; undefined where the transaction may see none. */
export async function findResult(
  tx: Transaction,
  id: string,
): Promise<(ResultRow & { readonly isNewest: boolean; readonly agreementId: string }) | undefined> {
  const [row] = await tx.$queryRawUnsafe<(FlatRow & { isNewest: boolean; agreementId: string })[]>(
    `SELECT x.*, r.agreement_id AS "agreementId", NOT EXISTS (
       SELECT FROM result n WHERE n.agreement_id = r.agreement_id AND n.sample_id = r.sample_id AND n.version > r.version
     ) AS "isNewest"
     FROM (${SELECT} WHERE r.id = $1::uuid) x JOIN result r ON r.id = x.id`,
    id,
  );
  return row && { ...fromFlat(row), isNewest: row.isNewest, agreementId: row.agreementId };
}
