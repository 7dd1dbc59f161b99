/**
 * Every load of an agreement with what it has settled to, for whoever invoices.
 */
import type { Transaction } from '../../open-store.ts';

export interface LoadStandingRow {
  readonly loadId: string;
  readonly ticket: string;
  readonly deliveredOn: string;
  readonly isVoid: boolean;
  /** The settlement that stands; null while the load waits. */
  readonly settlementId: string | null;
  readonly status: 'settled' | 'refused' | null;
  readonly total: string | null;
  readonly settlementVersion: number | null;
  /** ISO 8601, UTC. */
  readonly settledAt: string | null;
}

/** The loads of an agreement in the order in which they were delivered. */
export async function readLoadStandings(
  tx: Transaction,
  agreementId: string,
): Promise<readonly LoadStandingRow[]> {
  return await tx.$queryRawUnsafe<LoadStandingRow[]>(
    `SELECT l.id AS "loadId", l.ticket, l.delivered_on::text AS "deliveredOn", l.is_void AS "isVoid",
       t.id AS "settlementId", t.status, t.total::text, t.version AS "settlementVersion",
       to_char(t.settled_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "settledAt"
     FROM current_load l
     LEFT JOIN (
       SELECT DISTINCT ON (load_id) load_id, id, status, total, version, settled_at FROM settlement
       WHERE agreement_id = $1::uuid ORDER BY load_id, version DESC
     ) t ON t.load_id = l.id
     WHERE l.agreement_id = $1::uuid ORDER BY l.delivered_at, l.id`,
    agreementId,
  );
}

/** An advance that will be taken off a load which has settled and is on no invoice yet. */
export interface UsableAdvanceRow {
  readonly agreementId: string;
  /** Above zero. */
  readonly advance: string;
}

/** The sums of such advances, by agreement. */
export async function readUsableAdvances(tx: Transaction): Promise<readonly UsableAdvanceRow[]> {
  return await tx.$queryRawUnsafe<UsableAdvanceRow[]>(
    `SELECT l.agreement_id AS "agreementId", (-sum(l.advance))::text AS advance FROM document_load l
     WHERE EXISTS (SELECT FROM settlement t WHERE t.agreement_id = l.agreement_id AND t.load_id = l.load_id AND t.status = 'settled')
       AND NOT EXISTS (SELECT FROM document_load d WHERE d.agreement_id = l.agreement_id AND d.load_id = l.load_id AND d.settlement_id IS NOT NULL)
     GROUP BY l.agreement_id`,
  );
}
