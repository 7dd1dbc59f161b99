/**
 * Ends advice: either of the two may. From then on the adviser sees nothing new; what was written stays with both.
 */
import { endAdviceRow } from '../../store/rows/advice-rows.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tell } from '../notices/tell.ts';
import { findRunningAdvice, otherOf } from './find-advice.ts';

/** Refuses `not-allowed`, `not-found`, `advice-over`. */
export async function endAdvice(
  context: Context,
  { adviceId, key }: { readonly adviceId: string; readonly key?: string },
): Promise<{ readonly other: string }> {
  permit(context, 'advise');
  return await doOnce(context, { verb: 'end-advice', subject: adviceId, key, input: {} }, async (tx) => {
    const { id: partyId, name: other } = otherOf(await findRunningAdvice(tx, adviceId), context);
    await endAdviceRow(tx, { id: adviceId, endedAt: stamp(context) });
    await tell(tx, context, [{ partyId, kind: 'advice-ended', subjectId: adviceId }]);
    return { other };
  });
}
