/**
 * Ticket numbers of an agreement: its series, what became of each number, and what its trucks weighed last.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

export interface SeriesRow {
  readonly id: string;
  readonly prefix: string;
  readonly width: number;
  readonly firstNumber: number;
}

/** The series of an agreement, the oldest first. */
export async function readSeries(tx: Transaction, agreementId: string): Promise<readonly SeriesRow[]> {
  return await tx.$queryRawUnsafe<SeriesRow[]>(
    `SELECT id, prefix, width, first_number AS "firstNumber" FROM ticket_series
     WHERE agreement_id = $1::uuid ORDER BY recorded_at, id`,
    agreementId,
  );
}

export async function insertSeries(
  tx: Transaction,
  series: SeriesRow,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'ticket_series', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [series.id]],
    prefix: ['text', [series.prefix]],
    width: ['int', [series.width]],
    first_number: ['int', [series.firstNumber]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

export type TicketUse = 'void' | 'elsewhere';

export interface SpentTicketRow {
  readonly id: string;
  readonly ticket: string;
  readonly use: TicketUse;
  readonly reason: string;
}

/** Tickets that no load will have, in the order in which they were spent; those among `tickets`, or all. */
export async function readSpentTickets(
  tx: Transaction,
  agreementId: string,
  tickets?: readonly string[],
): Promise<readonly SpentTicketRow[]> {
  return await tx.$queryRawUnsafe<SpentTicketRow[]>(
    `SELECT id, ticket, use, reason FROM spent_ticket
     WHERE agreement_id = $1::uuid AND ($2::text[] IS NULL OR ticket = ANY($2::text[])) ORDER BY recorded_at, id`,
    agreementId,
    tickets ?? null,
  );
}

export async function insertSpentTicket(
  tx: Transaction,
  spent: SpentTicketRow,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'spent_ticket', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [spent.id]],
    ticket: ['text', [spent.ticket]],
    use: ['text', [spent.use]],
    reason: ['text', [spent.reason]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

export interface UsedTicketRow {
  readonly ticket: string;
  readonly loadId: string;
  readonly isVoid: boolean;
  /** Why it was voided. */
  readonly reason: string | null;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly deliveredAt: number;
}

/** The tickets that are loads as they stand, void ones too, in the order in which they were delivered. */
export async function readUsedTickets(
  tx: Transaction,
  agreementId: string,
): Promise<readonly UsedTicketRow[]> {
  return await tx.$queryRawUnsafe<UsedTicketRow[]>(
    `SELECT l.ticket, l.id AS "loadId", l.is_void AS "isVoid", v.reason,
       (extract(epoch FROM l.delivered_at) * 1000)::float8 AS "deliveredAt"
     FROM current_load l
     LEFT JOIN load_version v ON v.agreement_id = l.agreement_id AND v.load_id = l.id AND v.version = l.version
     WHERE l.agreement_id = $1::uuid ORDER BY l.delivered_at, l.id`,
    agreementId,
  );
}

export interface TruckWeighingRow {
  readonly truck: string;
  readonly loadId: string;
  readonly plate: string | null;
  readonly gross: string;
  readonly tare: string;
  readonly unit: string;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly deliveredAt: number;
}

/** The last loads of an agreement's trucks, void ones left out, each truck's earliest first; of `trucks`, or of all. */
export async function readTruckWeighings(
  tx: Transaction,
  agreementId: string,
  { last, trucks }: { readonly last: number; readonly trucks?: readonly string[] },
): Promise<readonly TruckWeighingRow[]> {
  return await tx.$queryRawUnsafe<TruckWeighingRow[]>(
    `SELECT truck, id AS "loadId", plate, gross::text, tare::text, unit,
       (extract(epoch FROM delivered_at) * 1000)::float8 AS "deliveredAt"
     FROM (
       SELECT l.*, row_number() OVER (PARTITION BY truck ORDER BY delivered_at DESC, id DESC) AS place
       FROM current_load l
       WHERE agreement_id = $1::uuid AND NOT is_void AND truck IS NOT NULL
         AND ($3::text[] IS NULL OR truck = ANY($3::text[]))
     ) numbered
     WHERE place <= $2 ORDER BY truck, delivered_at, id`,
    agreementId,
    last,
    trucks ?? null,
  );
}
