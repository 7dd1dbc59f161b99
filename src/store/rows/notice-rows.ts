/**
 * Notices with the other party's name, and the taking of each for its e-mail, once.
 */
import type { NoticeKind } from '../../domain/notices/notice.ts';
import type { Transaction } from '../open-store.ts';

export interface NoticeRow {
  readonly id: string;
  readonly kind: NoticeKind;
  readonly subjectId: string;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly isSeen: boolean;
  /** The other party; null where what it is about is no longer the reader's to see. */
  readonly from: string | null;
}

/** The other party, by what the notice is about. Who came to a lot by a link came at the very moment of the notice. */
const FROM = `coalesce(
  CASE WHEN o.seller_id = n.party_id THEN ob.name ELSE os.name END,
  CASE WHEN g.seller_id = n.party_id THEN gb.name ELSE gs.name END,
  CASE WHEN a.adviser_id = n.party_id THEN ap.name ELSE aa.name END,
  CASE WHEN n.kind = 'share-accepted' THEN (
    SELECT string_agg(p.name, ' and ' ORDER BY p.name) FROM lot_guest w JOIN party p ON p.id = w.party_id
    WHERE w.lot_id = l.id AND w.invited_at = n.at
  ) ELSE ls.name END)`;

const SELECT = `
  SELECT n.id, n.kind, n.subject_id AS "subjectId",
    to_char(n.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS at, n.seen_at IS NOT NULL AS "isSeen",
    ${FROM} AS "from"
  FROM notice n
  LEFT JOIN offer o ON o.id = n.subject_id
  LEFT JOIN party os ON os.id = o.seller_id
  LEFT JOIN party ob ON ob.id = o.buyer_id
  LEFT JOIN agreement g ON g.id = n.subject_id
  LEFT JOIN party gs ON gs.id = g.seller_id
  LEFT JOIN party gb ON gb.id = g.buyer_id
  LEFT JOIN advice a ON a.id = n.subject_id
  LEFT JOIN party ap ON ap.id = a.party_id
  LEFT JOIN party aa ON aa.id = a.adviser_id
  LEFT JOIN lot l ON l.id = n.subject_id
  LEFT JOIN party ls ON ls.id = l.seller_id`;

/** The party's notices that nobody has marked, the newest first. */
export async function readUnseen(tx: Transaction): Promise<readonly NoticeRow[]> {
  return await tx.$queryRawUnsafe<NoticeRow[]>(
    `${SELECT} WHERE n.seen_at IS NULL ORDER BY n.at DESC, n.id DESC`,
  );
}

/** The newest of those that were marked. */
export async function readSeen(tx: Transaction, most: number): Promise<readonly NoticeRow[]> {
  return await tx.$queryRawUnsafe<NoticeRow[]>(
    `${SELECT} WHERE n.seen_at IS NOT NULL ORDER BY n.at DESC, n.id DESC LIMIT ${most}`,
  );
}

/** One notice of the party's, or undefined. */
export async function readNotice(tx: Transaction, id: string): Promise<NoticeRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<NoticeRow[]>(`${SELECT} WHERE n.id = $1::uuid`, id);
  return row;
}

/** How many nobody has marked. */
export async function countUnseen(tx: Transaction): Promise<number> {
  const [row] = await tx.$queryRawUnsafe<{ n: number }[]>(
    'SELECT count(*)::int AS n FROM notice WHERE seen_at IS NULL',
  );
  return row?.n ?? 0;
}

/** Marks notices of the party's. */
export async function markRows(
  tx: Transaction,
  { ids, seenAt }: { readonly ids: readonly string[]; readonly seenAt: string },
): Promise<number> {
  return await tx.$executeRawUnsafe(
    'UPDATE notice SET seen_at = $2::timestamptz WHERE id = ANY($1::uuid[]) AND seen_at IS NULL',
    ids,
    seenAt,
  );
}

export interface TakenNotice {
  readonly id: string;
  readonly partyId: string;
}

/**
 * At the door: takes the oldest notice since a moment that nobody has read or mailed, and marks it mailed, so that
 * whoever asks at the same moment takes another.
 */
export async function takeUnmailed(
  tx: Transaction,
  {
    since,
    now,
    except,
  }: { readonly since: string; readonly now: string; readonly except: readonly string[] },
): Promise<TakenNotice | undefined> {
  const [row] = await tx.$queryRawUnsafe<TakenNotice[]>(
    `UPDATE notice SET mailed_at = $2::timestamptz WHERE id = (
       SELECT id FROM notice
       WHERE mailed_at IS NULL AND seen_at IS NULL AND at > $1::timestamptz AND NOT id = ANY($3::uuid[])
       ORDER BY at, id LIMIT 1 FOR UPDATE SKIP LOCKED
     ) RETURNING id, party_id AS "partyId"`,
    since,
    now,
    except,
  );
  return row;
}

/** At the door: gives a notice back that could not be mailed. */
export async function giveBack(tx: Transaction, id: string): Promise<void> {
  await tx.$executeRawUnsafe('UPDATE notice SET mailed_at = NULL WHERE id = $1::uuid', id);
}
