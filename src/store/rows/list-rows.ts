/**
 * Loads as a list shows them: which, in what order, and how they stand.
 */
import { whenText } from '../../domain/dates/instant.ts';
import type { Transaction } from '../open-store.ts';

export const LIST_STATUSES = ['all', 'waiting', 'settled', 'refused'] as const;
export type ListStatus = (typeof LIST_STATUSES)[number];

/** Where a page of a list begins: after this load. */
export interface Cursor {
  readonly deliveredAt: number;
  readonly id: string;
}

export interface ListedLoad extends Cursor {
  readonly agreementId: string;
}

/** Which of a party's loads to list. */
export interface ListSelection {
  /** Undefined for all agreements. */
  readonly agreementId: string | undefined;
  readonly status: ListStatus;
  readonly after: Cursor | undefined;
  readonly count: number;
}

/** Newest first. */
export async function listLoads(tx: Transaction, selection: ListSelection): Promise<readonly ListedLoad[]> {
  const { agreementId, status, after, count } = selection;
  return await tx.$queryRawUnsafe<ListedLoad[]>(
    `SELECT l.id, l.agreement_id AS "agreementId", (extract(epoch FROM l.delivered_at) * 1000)::float8 AS "deliveredAt"
     FROM load l
     WHERE ($1::uuid IS NULL OR l.agreement_id = $1::uuid)
       AND ($2 = 'all' OR $2 = coalesce((
         SELECT t.status FROM settlement t WHERE t.agreement_id = l.agreement_id AND t.load_id = l.id
         ORDER BY t.version DESC LIMIT 1), 'waiting'))
       AND ($3::timestamptz IS NULL OR (l.delivered_at, l.id) < ($3::timestamptz, $4::uuid))
     ORDER BY l.delivered_at DESC, l.id DESC LIMIT $5`,
    agreementId ?? null,
    status,
    after === undefined ? null : whenText(after.deliveredAt),
    after?.id ?? null,
    count,
  );
}

/** How many loads of each agreement there are, and how many of them wait. */
export async function countLoads(
  tx: Transaction,
): Promise<readonly { readonly agreementId: string; readonly loads: number; readonly waiting: number }[]> {
  return await tx.$queryRawUnsafe(
    `SELECT l.agreement_id AS "agreementId", count(*)::int AS loads, (count(*) FILTER (WHERE NOT EXISTS (
       SELECT FROM settlement t WHERE t.agreement_id = l.agreement_id AND t.load_id = l.id)))::int AS waiting
     FROM load l GROUP BY l.agreement_id`,
  );
}

export interface HistoryRow {
  readonly sequence: number;
  readonly kind: string;
  readonly subjectId: string;
  /** ISO 8601, UTC. */
  readonly postedAt: string;
  /** The person's name, where it is one of the caller's own party. */
  readonly person: string | null;
  readonly fingerprint: string;
}

/** The journal's entries about some subjects of an agreement, in order. */
export async function readHistory(
  tx: Transaction,
  agreementId: string,
  subjectIds: readonly string[],
): Promise<readonly HistoryRow[]> {
  return await tx.$queryRawUnsafe<HistoryRow[]>(
    `SELECT e.sequence, e.kind, e.subject_id AS "subjectId", to_char(e.posted_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "postedAt",
       p.name AS person, e.fingerprint
     FROM journal_entry e LEFT JOIN person p ON p.id = e.posted_by
     WHERE e.agreement_id = $1::uuid AND e.subject_id = ANY($2::uuid[]) ORDER BY e.sequence`,
    agreementId,
    subjectIds,
  );
}
