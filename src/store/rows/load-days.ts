/**
 * The last days of delivery of an agreement.
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
