/**
 * The other side's word about a reported figure: it confirms it, or contests it and says why. A figure that is confirmed
 * counts at once, and may decide the question.
 */

import { figureStanding } from '../../domain/retests/course.ts';
import type { RetestFigureAnswerFact } from '../../journal/retest-facts.ts';
import { insertRetestFigureAnswer } from '../../store/rows/retest-rows.ts';
import { type Context, permit } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { Refusal } from '../refusal.ts';
import { endIfOver } from './pass-time.ts';
import { frameOfRetest, refuseOver, retestFrame } from './retest-frame.ts';

export interface FigureToAnswer {
  readonly figureId: string;
  /** `withdraw`: by whoever entered it. */
  readonly answer: 'confirm' | 'contest' | 'withdraw';
  /** Why it is contested. */
  readonly reason?: string;
  readonly key?: string;
}

/**
 * Returns whether the question is decided by it. Refuses `not-allowed`, `not-found`, `not-yours` for a figure of the
 * caller's own side, `bad-input` for a contest without a reason, `retest-over`, `ended-already` for one that was answered or
 * counts by now.
 */
export async function answerFigure(
  context: Context,
  { figureId, answer, reason = '', key }: FigureToAnswer,
): Promise<{ readonly isDecided: boolean }> {
  permit(context, 'question');
  const input = { answer, reason };
  return await doOnce(context, { verb: 'answer-figure', subject: figureId, key, input }, async (tx) => {
    const frame = await retestFrame(tx, context, { table: 'retest_figure', id: figureId });
    refuseOver(frame);
    if (await endIfOver(tx, context, frame)) return { isDecided: true };
    const { asked, found, recorded, today } = frame;
    const figure = asked.figures.find(({ row }) => row.id === figureId);
    if (figure && (answer === 'withdraw') !== (figure.row.fact.party === context.caller.partyId)) {
      throw new Refusal(
        'not-yours',
        answer === 'withdraw'
          ? 'Only the side that reported a figure takes it back.'
          : 'Your side reported this figure; the other side confirms or contests it.',
      );
    }
    if (!figure || figureStanding(figure, today) !== 'unanswered') {
      throw new Refusal('ended-already', 'This figure was answered already, or counts by now.');
    }
    const why = answer === 'contest' ? readReason(reason) : null;
    const fact: RetestFigureAnswerFact = {
      figure: figureId,
      answer,
      reason: why,
      party: context.caller.partyId,
    };
    const id = context.newId();
    await insertRetestFigureAnswer(tx, { id, fact }, recorded);
    await enterFacts(tx, [{ kind: 'retest-figure-answer', fact, subjectId: id, postings: [] }], recorded);
    await tellPartner(tx, context, { found, kind: 'retest-figure-answered' });
    const after = await frameOfRetest(tx, context, { found, retestId: asked.id });
    return { isDecided: await endIfOver(tx, context, after) };
  });
}
