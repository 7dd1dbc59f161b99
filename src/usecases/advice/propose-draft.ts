/**
 * An adviser's draft: whole terms, which whoever asked may open in the builder and send as their own. It binds nobody.
 */
import { checkTerms } from '../../domain/offers/check-terms.ts';
import { canonicalText } from '../../journal/fingerprint.ts';
import { insertDraft } from '../../store/rows/advice-rows.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tell } from '../notices/tell.ts';
import { termProblems } from '../offers/send-version.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { DRAFT_KEPT, type DraftGround, draftGround } from './draft-ground.ts';
import { findRunningAdvice, otherOf, personName } from './find-advice.ts';

export interface DraftToPropose {
  readonly adviceId: string;
  /** The agreement file, parsed. Its number, the parties, the feed, the money and the days stay those of the subject. */
  readonly document: Readonly<Record<string, unknown>>;
  readonly key?: string;
}

/**
 * Returns the draft's id. Refuses `not-allowed`, `not-found`, `advice-over`, `not-yours` for whoever asked, and `bad-input`
 * with every fault and its path.
 */
export async function proposeDraft(
  context: Context,
  { adviceId, document, key }: DraftToPropose,
): Promise<{ readonly draftId: string }> {
  permit(context, 'advise');
  const asked = { verb: 'propose-draft', subject: adviceId, key, input: { document } };
  return await doOnce(context, asked, async (tx) => {
    const advice = await findRunningAdvice(tx, adviceId);
    const { id: partyId, advises } = otherOf(advice, context);
    if (advises) {
      throw new Refusal('not-yours', 'Drafts come from your adviser. Write your own terms in an offer.');
    }
    const { document: stands } = await draftGround(tx, advice);
    const kept = Object.fromEntries(DRAFT_KEPT.map((name) => [name, stands[name]]));
    const terms = { ...document, ...kept };
    const { problems } = checkTerms(terms);
    if (problems.length > 0) throw badInput(termProblems(problems));
    const draftId = context.newId();
    await insertDraft(tx, {
      adviceId,
      id: draftId,
      document: canonicalText(terms),
      byName: await personName(tx, context),
      writtenAt: stamp(context),
    });
    await tell(tx, context, [{ partyId, kind: 'advice-draft', subjectId: adviceId }]);
    return { draftId };
  });
}

/** What the adviser's form starts from. Refuses as `proposeDraft`. */
export async function readDraftGround(
  context: Context,
  { adviceId }: { readonly adviceId: string },
): Promise<DraftGround> {
  permit(context, 'advise');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const advice = await findRunningAdvice(tx, adviceId);
    if (otherOf(advice, context).advises) {
      throw new Refusal('not-yours', 'Drafts come from your adviser. Write your own terms in an offer.');
    }
    return await draftGround(tx, advice);
  });
}
