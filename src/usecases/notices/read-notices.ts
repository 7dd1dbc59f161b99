/**
 * What the caller's party was told of, in sentences with the page that each leads to; and marking it as seen.
 */
import { noticeInWords, noticePath } from '../../domain/notices/notice.ts';
import { countUnseen, markRows, type NoticeRow, readSeen, readUnseen } from '../../store/rows/notice-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';

export interface NoticeView {
  readonly id: string;
  readonly words: string;
  /** The page that it leads to. */
  readonly path: string;
  /** ISO 8601, UTC. */
  readonly at: string;
}

export interface Notices {
  /** The newest first. */
  readonly unseen: readonly NoticeView[];
  /** The last few that were marked as seen. */
  readonly seen: readonly NoticeView[];
}

const MOST_SEEN = 10;

/** Refuses `not-allowed`. */
export async function readNotices(context: Context): Promise<Notices> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => ({
    unseen: (await readUnseen(tx)).flatMap(noticeView),
    seen: (await readSeen(tx, MOST_SEEN)).flatMap(noticeView),
  }));
}

/** Empty where what it is about is no longer the party's to see. */
export function noticeView({ id, kind, subjectId, at, from }: NoticeRow): readonly NoticeView[] {
  if (from === null) return [];
  return [{ id, words: noticeInWords(kind, from), path: noticePath(kind, subjectId), at }];
}

/** How many notices nobody has marked. Refuses `not-allowed`. */
export async function countNews(context: Context): Promise<number> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, countUnseen);
}

/** Marks notices as seen, for the whole party. Returns how many were new. Refuses `not-allowed`. */
export async function markSeen(
  context: Context,
  { noticeIds }: { readonly noticeIds: readonly string[] },
): Promise<{ readonly marked: number }> {
  permit(context, 'make-offer');
  const ids = noticeIds.filter(isId);
  return await context.store.forParty(context.caller.partyId, async (tx) => ({
    marked: await markRows(tx, { ids, seenAt: stamp(context) }),
  }));
}
