/**
 * Advice as its two parties see it: what it is about, what they wrote to one another, and the adviser's drafts. It is
 * between the two: the other side of an offer sees nothing of it.
 */
import { type Subject, subjectId } from '../../domain/advice/subject.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type AdviceRow, readAllAdvice, readDrafts, readNotes } from '../../store/rows/advice-rows.ts';
import { type Context, permit } from '../context.ts';
import { adviceInWords, findAdvice, otherOf, subjectOf } from './find-advice.ts';

export interface NoteView {
  readonly isOurs: boolean;
  /** Who wrote it. */
  readonly name: string;
  readonly text: string;
  /** ISO 8601, UTC. */
  readonly writtenAt: string;
}

export interface DraftMention {
  readonly id: string;
  readonly name: string;
  readonly writtenAt: string;
}

export interface AdviceView {
  readonly id: string;
  /** Whether the caller's party gives it; else it asked for it. */
  readonly isOurs: boolean;
  /** The other party. */
  readonly other: string;
  readonly subject: Subject;
  /** "the offer on lot 3 of Quillback Acres". */
  readonly words: string;
  readonly since: string;
  readonly endedAt: string | null;
  /** Oldest first. */
  readonly notes: readonly NoteView[];
  readonly drafts: readonly DraftMention[];
  /** Where whoever asked opens a draft in the builder, to which "?draft=" and its id are added; null for the adviser. */
  readonly builderPath: string | null;
}

/** All advice that the caller's party gives or gets, what runs first; of one subject, if one is named. Refuses `not-allowed`. */
export async function readAdvice(context: Context, subject?: Subject): Promise<readonly AdviceView[]> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const all = await readAllAdvice(tx);
    const wanted = subject && subjectId(subject);
    return await views(
      tx,
      context,
      all.filter((row) => wanted === undefined || subjectId(subjectOf(row)) === wanted),
    );
  });
}

/** Refuses `not-allowed`, `not-found`. */
export async function readOneAdvice(
  context: Context,
  { adviceId }: { readonly adviceId: string },
): Promise<AdviceView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const [view] = await views(tx, context, [await findAdvice(tx, adviceId)]);
    if (!view) throw new Error('Advice that was found has no view');
    return view;
  });
}

async function views(tx: Transaction, context: Context, rows: readonly AdviceRow[]): Promise<AdviceView[]> {
  const ids = rows.map(({ id }) => id);
  const [notes, drafts] = [await readNotes(tx, ids), await readDrafts(tx, ids)];
  return rows.map((row) => {
    const { name: other, advises } = otherOf(row, context);
    return {
      id: row.id,
      isOurs: !advises,
      other,
      subject: subjectOf(row),
      words: adviceInWords(row),
      since: row.since,
      endedAt: row.endedAt,
      notes: notes
        .filter(({ adviceId }) => adviceId === row.id)
        .map(({ byPartyId, byName, text, writtenAt }) => ({
          isOurs: byPartyId === context.caller.partyId,
          name: byName,
          text,
          writtenAt,
        })),
      drafts: drafts
        .filter(({ adviceId }) => adviceId === row.id)
        .map(({ id, byName, writtenAt }) => ({ id, name: byName, writtenAt })),
      builderPath: advises ? builderPath(row) : null,
    };
  });
}

/** The page on which the one who asked writes terms about the subject. */
export function builderPath({ partyId, sellerId, lotId, offerId, agreementId }: AdviceRow): string {
  if (offerId !== null) return `/offers/${offerId}/counter`;
  if (agreementId !== null) return `/agreements/${agreementId}/amend`;
  return partyId === sellerId ? `/lots/${lotId}/edit` : `/lots/${lotId}/offer`;
}
