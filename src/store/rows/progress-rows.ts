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
