/**
 * The last days of delivery of an agreement, and how much was delivered.
 */
import type { Transaction } from '../open-store.ts';

/** The last local date on which a load was delivered, or one that has settled or was refused; null for none. */
export async function readLastDay(
  tx: Transaction,
  agreementId: string,
  of: 'delivered' | 'settled',
): Promise<string | null> {
  const decided =
    of === 'settled'
      ? 'AND EXISTS (SELECT FROM settlement s WHERE s.agreement_id = l.agreement_id AND s.load_id = l.id)'
      : '';
  const [row] = await tx.$queryRawUnsafe<{ day: string | null }[]>(
    `SELECT max(delivered_on)::text AS day FROM load l WHERE agreement_id = $1::uuid ${decided}`,
    agreementId,
  );
  return row?.day ?? null;
}

/** What was delivered and not refused, summed by the unit of the tickets. */
export async function readNetWeights(
  tx: Transaction,
  agreementId: string,
): Promise<readonly { readonly unit: string; readonly net: string; readonly loads: number }[]> {
  return await tx.$queryRawUnsafe(
    `SELECT l.unit, sum(l.gross - l.tare)::text AS net, count(*)::int AS loads FROM load l
     WHERE l.agreement_id = $1::uuid AND NOT EXISTS (
       SELECT FROM settlement s WHERE s.agreement_id = l.agreement_id AND s.load_id = l.id AND s.status = 'refused')
     GROUP BY l.unit ORDER BY l.unit`,
    agreementId,
  );
}

/** The ids of every load of an agreement. */
export async function readLoadIds(tx: Transaction, agreementId: string): Promise<readonly string[]> {
  const rows = await tx.$queryRawUnsafe<{ id: string }[]>(
    'SELECT id FROM load WHERE agreement_id = $1::uuid ORDER BY delivered_at, id',
    agreementId,
  );
  return rows.map(({ id }) => id);
}
