/**
 * Trucks that were weighed full. A weighing is open until its ticket becomes a load, or is spent.
 */
import { whenText } from '../../domain/dates/instant.ts';
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

export interface WeighingRow {
  readonly id: string;
  readonly ticket: string;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly weighedAt: number;
  readonly gross: string;
  readonly unit: string;
  readonly truck: string | null;
  readonly plate: string | null;
  /** The id of the scale. */
  readonly scale: string | null;
  /** The name of the sample that was taken. */
  readonly sample: string | null;
  readonly weigher: string | null;
  readonly moistureReading: string | null;
  /** False once its ticket became a load, or was spent. */
  readonly isOpen: boolean;
}

// A ticket that was corrected to another number keeps its weighing closed: the load was first recorded with it.
const IS_OPEN = `NOT EXISTS (SELECT FROM ticket_taken t WHERE t.agreement_id = w.agreement_id AND t.ticket = w.ticket)
  AND NOT EXISTS (SELECT FROM spent_ticket p WHERE p.agreement_id = w.agreement_id AND p.ticket = w.ticket)
  AND NOT EXISTS (SELECT FROM load l WHERE l.agreement_id = w.agreement_id AND l.ticket = w.ticket
    AND l.recorded_at >= w.recorded_at)`;

/** Every weighing of an agreement, the earliest first. */
export async function readWeighings(tx: Transaction, agreementId: string): Promise<readonly WeighingRow[]> {
  return await tx.$queryRawUnsafe<WeighingRow[]>(
    `SELECT w.id, w.ticket, (extract(epoch FROM w.weighed_at) * 1000)::float8 AS "weighedAt", w.gross::text, w.unit,
       w.truck, w.plate, w.scale_id AS scale, w.sample, w.weigher, w.moisture_reading::text AS "moistureReading",
       ${IS_OPEN} AS "isOpen"
     FROM open_weighing w WHERE w.agreement_id = $1::uuid ORDER BY w.weighed_at, w.id`,
    agreementId,
  );
}

export async function insertWeighing(
  tx: Transaction,
  row: WeighingRow,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'open_weighing', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [row.id]],
    ticket: ['text', [row.ticket]],
    weighed_at: ['timestamptz', [whenText(row.weighedAt)]],
    gross: ['numeric', [row.gross]],
    unit: ['text', [row.unit]],
    truck: ['text', [row.truck]],
    plate: ['text', [row.plate]],
    scale_id: ['uuid', [row.scale]],
    sample: ['text', [row.sample]],
    weigher: ['text', [row.weigher]],
    moisture_reading: ['numeric', [row.moistureReading]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}
