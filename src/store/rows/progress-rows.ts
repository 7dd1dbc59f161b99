/**
 * All loads of an agreement that count as deliveries.
 */
import type { Transaction } from '../open-store.ts';
import { type LoadRow, readLoads } from './load-rows.ts';

/** Every load but void ones, in the order in which they were delivered. */
export async function readDeliveredLoads(tx: Transaction, agreementId: string): Promise<readonly LoadRow[]> {
  const rows = await tx.$queryRawUnsafe<{ id: string }[]>(
    'SELECT id FROM current_load WHERE agreement_id = $1::uuid AND NOT is_void',
    agreementId,
  );
  return await readLoads(
    tx,
    agreementId,
    rows.map(({ id }) => id),
  );
}

/** When deliveries under an agreement began and ended. */
export interface DeliverySpanRow {
  readonly agreementId: string;
  /** Local dates of the agreement. */
  readonly first: string;
  readonly last: string;
}

/** Of some agreements; those to which nothing came are left out, and so are void tickets. */
export async function readDeliverySpans(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly DeliverySpanRow[]> {
  return await tx.$queryRawUnsafe<DeliverySpanRow[]>(
    `SELECT agreement_id AS "agreementId", min(delivered_on)::text AS first, max(delivered_on)::text AS last
     FROM current_load WHERE agreement_id = ANY($1::uuid[]) AND NOT is_void GROUP BY agreement_id`,
    agreementIds,
  );
}
