/**
 * An adviser's draft, for the builder of whoever asked for it, and for the adviser to look at again.
 */
import type { Subject } from '../../domain/advice/subject.ts';
import type { Agreement } from '../../domain/agreement/document.ts';
import { readDraft as readDraftRow } from '../../store/rows/advice-rows.ts';
import { agreementOf, isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { draftGround } from './draft-ground.ts';
import { findAdvice, otherOf, subjectOf } from './find-advice.ts';

export interface DraftView {
  readonly draftId: string;
  readonly adviceId: string;
  readonly subject: Subject;
  /** The agreement file. For a seller's lot `id`, `seller` and `buyer` are left out, as in an asking formula. */
  readonly document: Readonly<Record<string, unknown>>;
  /** The same with names, whatever it is about; checked. */
  readonly whole: Readonly<Record<string, unknown>>;
  readonly agreement: Agreement;
  /** The terms as they stand now; undefined where the reader no longer sees them. */
  readonly before: Readonly<Record<string, unknown>> | undefined;
  readonly lotTests: readonly Readonly<Record<string, string>>[];
  /** The adviser's practice, and who wrote it. */
  readonly adviser: string;
  readonly name: string;
  /** ISO 8601, UTC. */
  readonly writtenAt: string;
}

/** Refuses `not-allowed`, and `not-found` for a draft that is between others. */
export async function readDraft(
  context: Context,
  { draftId }: { readonly draftId: string },
): Promise<DraftView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const row = isId(draftId) ? await readDraftRow(tx, draftId) : undefined;
    if (!row) throw new Refusal('not-found', 'There is no such draft.');
    const advice = await findAdvice(tx, row.adviceId);
    const whole = JSON.parse(row.document) as Record<string, unknown>;
    const { id, seller, buyer, ...terms } = whole;
    const isAsking = advice.lotId !== null && advice.partyId === advice.sellerId;
    const { advises, name } = otherOf(advice, context);
    // Who advised sees the subject no more once the advice has ended.
    const ground = advice.sellerId === null ? undefined : await draftGround(tx, advice);
    return {
      draftId,
      adviceId: advice.id,
      subject: subjectOf(advice),
      document: isAsking ? terms : { ...terms, id, seller, buyer },
      whole,
      agreement: agreementOf(row.document),
      before: ground?.document,
      lotTests: ground?.lotTests ?? [],
      adviser: advises ? name : advice.adviserName,
      name: row.byName,
      writtenAt: row.writtenAt,
    };
  });
}
