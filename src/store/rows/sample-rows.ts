/**
 * How samples were taken, their sealed parts, and who was handed each part.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

/** An instant as ISO 8601 in UTC, with milliseconds, as the journal has it. */
const moment = (column: string) => `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

export interface TakingRow {
  readonly id: string;
  readonly sampleId: string;
  readonly sample: string;
  /** ISO 8601, UTC. */
  readonly takenAt: string;
  readonly takenBy: string;
  readonly how: string;
}

export interface PartRow {
  readonly id: string;
  readonly sampleId: string;
  readonly sample: string;
  readonly part: string;
  readonly seal: string;
  readonly isAirtight: boolean;
  readonly keptWhere: string;
  readonly keptUntil: string | null;
}

export interface HandoverRow {
  readonly id: string;
  readonly partId: string;
  /** ISO 8601, UTC. */
  readonly handedAt: string;
  readonly toWhom: string;
  readonly keptWhere: string;
  readonly keptUntil: string | null;
  readonly isSealIntact: boolean;
}

/** How the samples of an agreement were taken, first taken first. */
export async function readTakings(tx: Transaction, agreementId: string): Promise<readonly TakingRow[]> {
  return await tx.$queryRawUnsafe<TakingRow[]>(
    `SELECT t.id, t.sample_id AS "sampleId", s.name AS sample, ${moment('t.taken_at')} AS "takenAt",
       t.taken_by AS "takenBy", t.how
     FROM sample_taking t JOIN sample s ON s.agreement_id = t.agreement_id AND s.id = t.sample_id
     WHERE t.agreement_id = $1::uuid ORDER BY t.taken_at, t.id`,
    agreementId,
  );
}

/** The sealed parts of an agreement's samples, in the order in which they were sealed. */
export async function readParts(tx: Transaction, agreementId: string): Promise<readonly PartRow[]> {
  return await tx.$queryRawUnsafe<PartRow[]>(
    `SELECT p.id, p.sample_id AS "sampleId", s.name AS sample, p.part, p.seal, p.is_airtight AS "isAirtight",
       p.kept_where AS "keptWhere", p.kept_until::text AS "keptUntil"
     FROM sample_part p JOIN sample s ON s.agreement_id = p.agreement_id AND s.id = p.sample_id
     WHERE p.agreement_id = $1::uuid ORDER BY p.recorded_at, p.id`,
    agreementId,
  );
}

/** Every hand-over of a part of an agreement, in the order in which they were recorded. */
export async function readHandovers(tx: Transaction, agreementId: string): Promise<readonly HandoverRow[]> {
  return await tx.$queryRawUnsafe<HandoverRow[]>(
    `SELECT id, part_id AS "partId", ${moment('handed_at')} AS "handedAt", to_whom AS "toWhom",
       kept_where AS "keptWhere", kept_until::text AS "keptUntil", is_seal_intact AS "isSealIntact"
     FROM part_handover WHERE agreement_id = $1::uuid ORDER BY recorded_at, id`,
    agreementId,
  );
}

/** The agreement of a part, or undefined where there is none that the transaction may see. */
export async function findPart(
  tx: Transaction,
  id: string,
): Promise<{ readonly agreementId: string; readonly seal: string } | undefined> {
  const [row] = await tx.$queryRawUnsafe<{ agreementId: string; seal: string }[]>(
    'SELECT agreement_id AS "agreementId", seal FROM sample_part WHERE id = $1::uuid',
    id,
  );
  return row;
}

export async function insertTaking(tx: Transaction, taking: TakingRow, recorded: Recorded): Promise<void> {
  await insertRows(tx, 'sample_taking', {
    agreement_id: ['uuid', [recorded.agreementId]],
    id: ['uuid', [taking.id]],
    sample_id: ['uuid', [taking.sampleId]],
    taken_at: ['timestamptz', [taking.takenAt]],
    taken_by: ['text', [taking.takenBy]],
    how: ['text', [taking.how]],
    recorded_at: ['timestamptz', [recorded.recordedAt]],
    recorded_by: ['uuid', [recorded.recordedBy]],
  });
}

export async function insertParts(
  tx: Transaction,
  parts: readonly PartRow[],
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'sample_part', {
    agreement_id: ['uuid', parts.map(() => agreementId)],
    id: ['uuid', parts.map(({ id }) => id)],
    sample_id: ['uuid', parts.map(({ sampleId }) => sampleId)],
    part: ['text', parts.map(({ part }) => part)],
    seal: ['text', parts.map(({ seal }) => seal)],
    is_airtight: ['boolean', parts.map(({ isAirtight }) => String(isAirtight))],
    kept_where: ['text', parts.map(({ keptWhere }) => keptWhere)],
    kept_until: ['date', parts.map(({ keptUntil }) => keptUntil)],
    recorded_at: ['timestamptz', parts.map(() => recordedAt)],
    recorded_by: ['uuid', parts.map(() => recordedBy)],
  });
}

export async function insertHandover(tx: Transaction, row: HandoverRow, recorded: Recorded): Promise<void> {
  await insertRows(tx, 'part_handover', {
    agreement_id: ['uuid', [recorded.agreementId]],
    id: ['uuid', [row.id]],
    part_id: ['uuid', [row.partId]],
    handed_at: ['timestamptz', [row.handedAt]],
    to_whom: ['text', [row.toWhom]],
    kept_where: ['text', [row.keptWhere]],
    kept_until: ['date', [row.keptUntil]],
    is_seal_intact: ['boolean', [String(row.isSealIntact)]],
    recorded_at: ['timestamptz', [recorded.recordedAt]],
    recorded_by: ['uuid', [recorded.recordedBy]],
  });
}

export interface SampleStanding {
  readonly sample: string;
  /** How many loads that are not void name it. */
  readonly loads: number;
  /** When the result that stands was entered, ISO 8601 in UTC; null without one. */
  readonly resultAt: string | null;
}

/** Every sample of an agreement and how it stands, first recorded first. */
export async function readSampleStandings(
  tx: Transaction,
  agreementId: string,
): Promise<readonly SampleStanding[]> {
  return await tx.$queryRawUnsafe<SampleStanding[]>(
    `SELECT s.name AS sample, coalesce(l.loads, 0) AS loads, r.at AS "resultAt"
     FROM sample s
     LEFT JOIN (
       SELECT sample_id, count(*)::int AS loads FROM current_load
       WHERE agreement_id = $1::uuid AND NOT is_void GROUP BY sample_id) l ON l.sample_id = s.id
     LEFT JOIN (
       SELECT sample_id, ${moment('max(recorded_at)')} AS at FROM result
       WHERE agreement_id = $1::uuid GROUP BY sample_id) r ON r.sample_id = s.id
     WHERE s.agreement_id = $1::uuid ORDER BY s.recorded_at, s.name`,
    agreementId,
  );
}

/** Loads that name no sample and are not void, in the order in which they were delivered. */
export async function readUnsampledLoads(
  tx: Transaction,
  agreementId: string,
): Promise<readonly { readonly id: string; readonly ticket: string; readonly deliveredOn: string }[]> {
  return await tx.$queryRawUnsafe(
    `SELECT id, ticket, delivered_on::text AS "deliveredOn" FROM current_load
     WHERE agreement_id = $1::uuid AND sample_id IS NULL AND NOT is_void ORDER BY delivered_at, id`,
    agreementId,
  );
}

/** The moisture readings on the tickets that name some samples. */
export async function readMoistureReadings(
  tx: Transaction,
  agreementId: string,
  samples: readonly string[],
): Promise<readonly { readonly sample: string; readonly ticket: string; readonly moisture: string }[]> {
  return await tx.$queryRawUnsafe(
    `SELECT s.name AS sample, l.ticket, l.moisture_reading::text AS moisture FROM current_load l
     JOIN sample s ON s.agreement_id = l.agreement_id AND s.id = l.sample_id
     WHERE l.agreement_id = $1::uuid AND s.name = ANY($2::text[]) AND NOT l.is_void AND l.moisture_reading IS NOT NULL
     ORDER BY l.delivered_at, l.id`,
    agreementId,
    samples,
  );
}
