/**
 * Loads with the sample that their tickets name. Numbers come and go as decimal strings, their decimals kept.
 */
import { whenText } from '../../domain/dates/instant.ts';
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

export interface LoadRow {
  readonly id: string;
  readonly agreementId: string;
  readonly ticket: string;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly deliveredAt: number;
  readonly deliveredOn: string;
  readonly gross: string;
  readonly tare: string;
  readonly unit: string;
  readonly distance: string | null;
  readonly distanceUnit: string | null;
  readonly truck: string | null;
  readonly sample: string | null;
  readonly recordedBy: string;
}

const COLUMNS = `l.id, l.agreement_id AS "agreementId", l.ticket,
  (extract(epoch FROM l.delivered_at) * 1000)::float8 AS "deliveredAt", l.delivered_on::text AS "deliveredOn",
  l.gross::text, l.tare::text, l.unit, l.distance::text, l.distance_unit AS "distanceUnit", l.truck, s.name AS sample,
  l.recorded_by AS "recordedBy"`;
const FROM = `FROM load l
  LEFT JOIN sample_load sl ON sl.agreement_id = l.agreement_id AND sl.load_id = l.id
  LEFT JOIN sample s ON s.agreement_id = l.agreement_id AND s.id = sl.sample_id`;

/** Some loads of an agreement by id, in the order in which they were delivered; those it may not see are not there. */
export async function readLoads(
  tx: Transaction,
  agreementId: string,
  ids: readonly string[],
): Promise<readonly LoadRow[]> {
  return await tx.$queryRawUnsafe<LoadRow[]>(
    `SELECT ${COLUMNS} ${FROM} WHERE l.agreement_id = $1::uuid AND l.id = ANY($2::uuid[])
     ORDER BY l.delivered_at, l.id`,
    agreementId,
    ids,
  );
}

/** All loads of an agreement that no settlement is of yet, in the order in which they were delivered. */
export async function readUnsettledLoads(tx: Transaction, agreementId: string): Promise<readonly LoadRow[]> {
  return await tx.$queryRawUnsafe<LoadRow[]>(
    `SELECT ${COLUMNS} ${FROM} WHERE l.agreement_id = $1::uuid
       AND l.id NOT IN (SELECT t.load_id FROM settlement t WHERE t.agreement_id = $1::uuid)
     ORDER BY l.delivered_at, l.id`,
    agreementId,
  );
}

/** The loads of an agreement whose tickets are among some, by ticket. */
export async function readLoadsByTicket(
  tx: Transaction,
  agreementId: string,
  tickets: readonly string[],
): Promise<ReadonlyMap<string, LoadRow>> {
  const rows = await tx.$queryRawUnsafe<LoadRow[]>(
    `SELECT ${COLUMNS} ${FROM} WHERE l.agreement_id = $1::uuid AND l.ticket = ANY($2::text[])`,
    agreementId,
    tickets,
  );
  return new Map(rows.map((row) => [row.ticket, row]));
}

/** One load wherever it is, or undefined where there is none that the transaction may see. */
export async function findLoad(tx: Transaction, id: string): Promise<LoadRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<LoadRow[]>(`SELECT ${COLUMNS} ${FROM} WHERE l.id = $1::uuid`, id);
  return row;
}

/** Writes loads of one agreement, and which sample each names. */
export async function insertLoads(
  tx: Transaction,
  loads: readonly (LoadRow & { readonly sampleId: string | null })[],
  recordedAt: string,
): Promise<void> {
  await insertRows(tx, 'load', {
    agreement_id: ['uuid', loads.map((load) => load.agreementId)],
    id: ['uuid', loads.map((load) => load.id)],
    ticket: ['text', loads.map((load) => load.ticket)],
    delivered_at: ['timestamptz', loads.map((load) => whenText(load.deliveredAt))],
    delivered_on: ['date', loads.map((load) => load.deliveredOn)],
    gross: ['numeric', loads.map((load) => load.gross)],
    tare: ['numeric', loads.map((load) => load.tare)],
    unit: ['text', loads.map((load) => load.unit)],
    distance: ['numeric', loads.map((load) => load.distance)],
    distance_unit: ['text', loads.map((load) => load.distanceUnit)],
    truck: ['text', loads.map((load) => load.truck)],
    recorded_at: ['timestamptz', loads.map(() => recordedAt)],
    recorded_by: ['uuid', loads.map((load) => load.recordedBy)],
  });
  const sampled = loads.filter((load) => load.sampleId !== null);
  await insertRows(tx, 'sample_load', {
    agreement_id: ['uuid', sampled.map((load) => load.agreementId)],
    load_id: ['uuid', sampled.map((load) => load.id)],
    sample_id: ['uuid', sampled.map((load) => load.sampleId)],
  });
}
