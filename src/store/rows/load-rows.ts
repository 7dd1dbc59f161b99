/**
 * Loads as they stand now, with the sample that their tickets name. Numbers come and go as decimal strings, their
 * decimals kept.
 */
import { whenText } from '../../domain/dates/instant.ts';
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';

/** What a ticket says, in any of its versions. */
export interface TicketRow {
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
  /** When the tare was weighed, where it was not with the gross; milliseconds since 1970-01-01T00:00:00Z. */
  readonly tareAt: number | null;
  /** Ids of the scales that were used. */
  readonly grossScale: string | null;
  readonly tareScale: string | null;
  /** Percent, by a hand meter. */
  readonly moistureReading: string | null;
  readonly plate: string | null;
  readonly weigher: string | null;
  /** SHA-256 of a photo of the ticket. */
  readonly photo: string | null;
}

export interface LoadRow extends TicketRow {
  readonly id: string;
  readonly agreementId: string;
  /** 1, and one more with each correction. */
  readonly version: number;
  /** Its number is kept, and nothing was delivered. */
  readonly isVoid: boolean;
  readonly recordedBy: string;
}

/** What a ticket says, of any table or view `l` that has its columns, beside its sample `s`. */
const TICKET = `l.ticket, (extract(epoch FROM l.delivered_at) * 1000)::float8 AS "deliveredAt",
  l.delivered_on::text AS "deliveredOn", l.gross::text, l.tare::text, l.unit, l.distance::text,
  l.distance_unit AS "distanceUnit", l.truck, s.name AS sample,
  (extract(epoch FROM l.tare_at) * 1000)::float8 AS "tareAt", l.gross_scale_id AS "grossScale",
  l.tare_scale_id AS "tareScale", l.moisture_reading::text AS "moistureReading", l.plate, l.weigher, l.photo`;
const COLUMNS = `l.id, l.agreement_id AS "agreementId", l.version, l.is_void AS "isVoid",
  l.recorded_by AS "recordedBy", ${TICKET}`;
const FROM = `FROM current_load l
  LEFT JOIN sample s ON s.agreement_id = l.agreement_id AND s.id = l.sample_id`;

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
    `SELECT ${COLUMNS} ${FROM} WHERE l.agreement_id = $1::uuid AND NOT l.is_void
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
    `SELECT ${COLUMNS} ${FROM}
     WHERE l.agreement_id = $1::uuid AND l.id IN (
       SELECT load_id FROM ticket_taken WHERE agreement_id = $1::uuid AND ticket = ANY($2::text[]))`,
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
    ...particulars(loads),
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

function particulars(tickets: readonly TicketRow[]) {
  return {
    tare_at: ['timestamptz', tickets.map(({ tareAt }) => (tareAt === null ? null : whenText(tareAt)))],
    gross_scale_id: ['uuid', tickets.map(({ grossScale }) => grossScale)],
    tare_scale_id: ['uuid', tickets.map(({ tareScale }) => tareScale)],
    moisture_reading: ['numeric', tickets.map(({ moistureReading }) => moistureReading)],
    plate: ['text', tickets.map(({ plate }) => plate)],
    weigher: ['text', tickets.map(({ weigher }) => weigher)],
    photo: ['text', tickets.map(({ photo }) => photo)],
  } as const;
}

/** A ticket as it was put right. */
export interface LoadVersionRow extends TicketRow {
  readonly id: string;
  readonly agreementId: string;
  readonly loadId: string;
  readonly version: number;
  readonly isVoid: boolean;
  readonly reason: string;
  readonly sampleId: string | null;
  readonly recordedBy: string;
}

/** Writes corrected tickets of one agreement. */
export async function insertLoadVersions(
  tx: Transaction,
  versions: readonly LoadVersionRow[],
  recordedAt: string,
): Promise<void> {
  await insertRows(tx, 'load_version', {
    agreement_id: ['uuid', versions.map(({ agreementId }) => agreementId)],
    id: ['uuid', versions.map(({ id }) => id)],
    load_id: ['uuid', versions.map(({ loadId }) => loadId)],
    version: ['int', versions.map(({ version }) => version)],
    is_void: ['boolean', versions.map(({ isVoid }) => String(isVoid))],
    reason: ['text', versions.map(({ reason }) => reason)],
    ticket: ['text', versions.map(({ ticket }) => ticket)],
    delivered_at: ['timestamptz', versions.map(({ deliveredAt }) => whenText(deliveredAt))],
    delivered_on: ['date', versions.map(({ deliveredOn }) => deliveredOn)],
    gross: ['numeric', versions.map(({ gross }) => gross)],
    tare: ['numeric', versions.map(({ tare }) => tare)],
    unit: ['text', versions.map(({ unit }) => unit)],
    distance: ['numeric', versions.map(({ distance }) => distance)],
    distance_unit: ['text', versions.map(({ distanceUnit }) => distanceUnit)],
    truck: ['text', versions.map(({ truck }) => truck)],
    ...particulars(versions),
    sample_id: ['uuid', versions.map(({ sampleId }) => sampleId)],
    recorded_at: ['timestamptz', versions.map(() => recordedAt)],
    recorded_by: ['uuid', versions.map(({ recordedBy }) => recordedBy)],
  });
}

/** Every version of some loads but the first, oldest first. */
export async function readLoadVersions(
  tx: Transaction,
  agreementId: string,
  loadIds: readonly string[],
): Promise<readonly LoadVersionRow[]> {
  return await tx.$queryRawUnsafe<LoadVersionRow[]>(
    `SELECT l.id, l.agreement_id AS "agreementId", l.load_id AS "loadId", l.version, l.is_void AS "isVoid", l.reason,
       l.sample_id AS "sampleId", l.recorded_by AS "recordedBy", ${TICKET}
     FROM load_version l
     LEFT JOIN sample s ON s.agreement_id = l.agreement_id AND s.id = l.sample_id
     WHERE l.agreement_id = $1::uuid AND l.load_id = ANY($2::uuid[]) ORDER BY l.load_id, l.version`,
    agreementId,
    loadIds,
  );
}

/** Loads as they were first recorded. */
export async function readFirstLoads(
  tx: Transaction,
  agreementId: string,
  ids: readonly string[],
): Promise<readonly LoadRow[]> {
  return await tx.$queryRawUnsafe<LoadRow[]>(
    `SELECT l.id, l.agreement_id AS "agreementId", 1 AS version, false AS "isVoid", l.recorded_by AS "recordedBy", ${TICKET}
     FROM load l
     LEFT JOIN sample_load sl ON sl.agreement_id = l.agreement_id AND sl.load_id = l.id
     LEFT JOIN sample s ON s.agreement_id = l.agreement_id AND s.id = sl.sample_id
     WHERE l.agreement_id = $1::uuid AND l.id = ANY($2::uuid[]) ORDER BY l.delivered_at, l.id`,
    agreementId,
    ids,
  );
}

/** Every version of some loads' tickets, the first among them, by `ticketKey`. */
export async function readTickets(
  tx: Transaction,
  agreementId: string,
  loadIds: readonly string[],
): Promise<ReadonlyMap<string, TicketRow>> {
  const first = await readFirstLoads(tx, agreementId, loadIds);
  const later = await readLoadVersions(tx, agreementId, loadIds);
  return new Map<string, TicketRow>([
    ...first.map((row) => [ticketKey(row.id, 1), row] as const),
    ...later.map((row) => [ticketKey(row.loadId, row.version), row] as const),
  ]);
}

export function ticketKey(loadId: string, version: number): string {
  return `${loadId} ${version}`;
}
