/**
 * Ends a question without a decision: one side proposes to withdraw it or to agree on a figure, and the other confirms.
 */
import { isNegative, parseDecimal } from '../../domain/numbers/exact.ts';
import { plainDecimal } from '../../domain/numbers/printing.ts';
import type { Side } from '../../domain/retests/costs.ts';
import type { RetestProposalAnswerFact, RetestProposalFact } from '../../journal/retest-facts.ts';
import { insertRetestProposal, insertRetestProposalAnswer } from '../../store/rows/retest-rows.ts';
import { type Context, permit } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { endRetest } from './end-retest.ts';
import { endIfOver } from './pass-time.ts';
import { tryOutFigure } from './put-figure.ts';
import { type RetestFrame, refuseOver, retestFrame } from './retest-frame.ts';

const ENDINGS = ['withdraw', 'agree'] as const;
const BEARERS = ['seller', 'buyer', 'split'] as const;

export interface EndingToPropose {
  readonly retestId: string;
  /** `withdraw`: the first figure stands. `agree`: another one counts. */
  readonly ending: string;
  /** The figure to agree on. */
  readonly value?: string;
  /** Who bears what was paid for tests so far: `seller`, `buyer` or `split`. */
  readonly bearer: string;
  readonly reason: string;
  readonly key?: string;
}

/**
 * Returns the proposal's id; null where the question was over by its rule meanwhile. Refuses `not-allowed`, `not-found`,
 * `not-yours`, `bad-input`, `retest-over`, and `correction-open` while another ending is proposed.
 */
export async function proposeEnding(
  context: Context,
  { retestId, ending, value = '', bearer, reason, key }: EndingToPropose,
): Promise<{ readonly proposalId: string | null }> {
  permit(context, 'question');
  const input = { ending, value, bearer, reason };
  return await doOnce(context, { verb: 'propose-ending', subject: retestId, key, input }, async (tx) => {
    const frame = await retestFrame(tx, context, { table: 'retest', id: retestId });
    refuseOver(frame);
    if (await endIfOver(tx, context, frame)) return { proposalId: null };
    if (frame.asked.proposals.some(({ answer }) => !answer)) {
      throw new Refusal(
        'correction-open',
        'An ending is proposed already. Answer or take back that one first.',
      );
    }
    const fact = readProposal(frame, { ending, value, bearer, reason, party: context.caller.partyId });
    if (fact.value !== null) {
      const tried = await tryOutFigure(tx, context, {
        found: frame.found,
        question: frame.asked.row,
        value: fact.value,
        reason: 'tried out',
        look: () => true,
      });
      if ('obstacle' in tried)
        throw badInput([{ column: 'value', message: `cannot stand: ${tried.obstacle}` }]);
    }
    const id = context.newId();
    await insertRetestProposal(tx, { id, fact }, frame.recorded);
    const entering = { kind: 'retest-proposal' as const, fact, subjectId: id, postings: [] };
    await enterFacts(tx, [entering], frame.recorded);
    await tellPartner(tx, context, { found: frame.found, kind: 'retest-ending-came' });
    return { proposalId: id };
  });
}

function readProposal(
  { asked }: RetestFrame,
  given: Required<Pick<EndingToPropose, 'ending' | 'value' | 'bearer' | 'reason'>> & {
    readonly party: string;
  },
): RetestProposalFact {
  const ending = ENDINGS.find((word) => word === given.ending);
  const bearer = BEARERS.find((word) => word === given.bearer);
  if (!ending) throw badInput([{ column: 'ending', message: 'is not chosen yet' }]);
  if (!bearer) throw badInput([{ column: 'bearer', message: 'is not chosen yet' }]);
  const figure = parseDecimal(given.value.trim());
  if (ending === 'agree' && (!figure || isNegative(figure))) {
    const message = `must be a figure such as ${asked.row.fact.claimed}; found ${JSON.stringify(given.value)}`;
    throw badInput([{ column: 'value', message }]);
  }
  return {
    retest: asked.id,
    ending,
    value: ending === 'agree' ? plainDecimal(given.value.trim()) : null,
    bearer,
    reason: readReason(given.reason, 'why it should end so'),
    party: given.party,
  };
}

export interface EndingToAnswer {
  readonly proposalId: string;
  readonly answer: 'confirmed' | 'refused' | 'withdrawn';
  /** Why it is refused. */
  readonly reason?: string;
  readonly key?: string;
}

/**
 * Returns whether the question has ended by it. Refuses `not-allowed`, `not-found`, `not-yours` for the wrong side,
 * `bad-input` for a refusal without a reason, `retest-over`, `ended-already`.
 */
export async function answerEnding(
  context: Context,
  { proposalId, answer, reason = '', key }: EndingToAnswer,
): Promise<{ readonly isOver: boolean }> {
  permit(context, 'question');
  const input = { answer, reason };
  return await doOnce(context, { verb: 'answer-ending', subject: proposalId, key, input }, async (tx) => {
    const frame = await retestFrame(tx, context, { table: 'retest_proposal', id: proposalId });
    refuseOver(frame);
    if (await endIfOver(tx, context, frame)) return { isOver: true };
    const { asked, found, recorded } = frame;
    const proposal = asked.proposals.find(({ row }) => row.id === proposalId);
    if (!proposal || proposal.answer) throw new Refusal('ended-already', 'This ending was answered already.');
    const { partyId } = context.caller;
    if ((answer === 'withdrawn') !== (proposal.row.fact.party === partyId)) {
      throw new Refusal(
        'not-yours',
        answer === 'withdrawn'
          ? 'Only the side that proposed an ending takes it back.'
          : 'Your side proposed this ending; the other side confirms or refuses it.',
      );
    }
    const why = answer === 'refused' ? readReason(reason) : null;
    const fact: RetestProposalAnswerFact = { proposal: proposalId, answer, reason: why, party: partyId };
    const id = context.newId();
    await insertRetestProposalAnswer(tx, { id, fact }, recorded);
    await enterFacts(tx, [{ kind: 'retest-proposal-answer', fact, subjectId: id, postings: [] }], recorded);
    await tellPartner(tx, context, { found, kind: 'retest-ending-answered' });
    if (answer !== 'confirmed') return { isOver: false };
    const { ending, value, bearer } = proposal.row.fact;
    const { first } = asked.row.fact;
    await endRetest(tx, context, {
      frame,
      ending: {
        ending: ending === 'agree' ? 'agreed' : 'withdrawn',
        because: 'both-confirmed',
        value: value ?? first,
        bearer: () => bearer as Side | 'split',
      },
    });
    return { isOver: true };
  });
}
