/**
 * Corrections after settlement: one side proposes, the other confirms, and only then is anything put right and every
 * load concerned settled anew, in one transaction. Nothing happens silently.
 */
import { canonicalText } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import {
  type CorrectionEnd,
  type CorrectionSubject,
  findCorrection,
  insertCorrection,
  insertCorrectionAnswer,
  readCorrections,
} from '../../store/rows/correction-rows.ts';
import { type FoundAgreement, findOwnAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { endDisputed, holdDisputed, type NoteToCome, notesToCome } from '../money/hold-disputed.ts';
import { issueNotes } from '../money/issue-invoices.ts';
import { frameOf } from '../money/money-frame.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput, type InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { holdQuestioned } from '../retests/hold-questioned.ts';
import { refuseQuestioned } from '../retests/refuse-questioned.ts';
import { correctionFact } from './correction-fact.ts';
import { newestResult } from './put-right.ts';
import { readReason } from './read-reason.ts';
import { type Concerned, loadsConcerned, takeCorrection, tryOutCorrection } from './take-correction.ts';

export interface CorrectionToPropose {
  readonly agreementId: string;
  readonly subject: CorrectionSubject;
  /** The id of the load, result or quote as it stands now. */
  readonly subjectId: string;
  /** The whole row as it should be, with the columns of its file. */
  readonly figures: InputRow;
  readonly reason: string;
  readonly key?: string;
  readonly confirmed?: boolean;
}

/**
 * Returns the proposal's id. What is proposed is tried out in full, so that the other side can confirm it. Refuses
 * `not-allowed`, `bad-input`, `not-found`, `not-yours`, `changed-meanwhile`, `correction-open` while one on the same
 * subject is open, `not-ready` where no load has settled from it (put it right directly) or one could not settle anew.
 */
export async function proposeCorrection(
  context: Context,
  { agreementId, subject, subjectId, figures, reason, key, confirmed }: CorrectionToPropose,
): Promise<{ readonly correctionId: string; readonly loads: number }> {
  permit(context, 'correct');
  const input = { subject, figures, reason };
  return await doOnce(context, { verb: 'propose-correction', subject: subjectId, key, input }, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    if (!isId(subjectId)) throw new Refusal('not-found', 'There is nothing of that number to put right.');
    await lockAgreement(tx, agreementId);
    const asked = { subject, subjectId, figures, reason, confirmed };
    return await enterProposal(tx, context, { found, asked });
  });
}

export interface ProposalToEnter {
  readonly found: FoundAgreement;
  readonly asked: Pick<CorrectionToPropose, 'subject' | 'subjectId' | 'figures' | 'reason'> & {
    readonly confirmed?: boolean | undefined;
    /** It is contested by the side that may not put it right: nothing need have settled from it. */
    readonly isContest?: boolean;
  };
}

/** Writes what one side proposes. The agreement must be locked. Refuses as `proposeCorrection`. */
export async function enterProposal(
  tx: Transaction,
  context: Context,
  { found, asked }: ProposalToEnter,
): Promise<{ readonly correctionId: string; readonly loads: number }> {
  const agreementId = found.row.id;
  const { subject, subjectId, figures, reason, confirmed, isContest = false } = asked;
  const open = (await readCorrections(tx, agreementId)).find(
    (row) => row.subjectId === subjectId && row.answer === null,
  );
  if (open) {
    throw new Refusal(
      'correction-open',
      'A correction of it is proposed already. Confirm, refuse or withdraw that one first.',
    );
  }
  await refuseQuestionedSubject(tx, { found, subject, subjectId });
  const why = readReason(reason);
  const correctionId = context.newId();
  const { partyId, personId } = context.caller;
  const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
  const correction = {
    id: correctionId,
    subject,
    subjectId,
    document: canonicalText(figures),
    reason: why,
    byPartyId: partyId,
  };
  const loads = await loadsConcerned(tx, { found, subject, subjectId });
  if (loads.length === 0 && !isContest) {
    throw new Refusal('not-ready', 'No load has settled from it yet, so it can be put right directly.');
  }
  await insertCorrection(tx, correction, recorded);
  const fact = correctionFact(correction);
  await enterFacts(tx, [{ kind: 'correction', fact, subjectId: correctionId, postings: [] }], recorded);
  let notes: readonly NoteToCome[] = [];
  const changed = await tryOutCorrection(tx, context, {
    found,
    correction: { ...correction, agreementId },
    confirmed,
    look: async (loadIds) => {
      notes = await notesToCome(tx, context, { found, loadIds });
    },
  });
  if (changed.length === 0 && !isContest) {
    throw badInput([{ message: 'Nothing would change: these are the figures that stand already.' }]);
  }
  await holdDisputed(tx, context, { found, correctionId, notes, reason: why });
  await tellPartner(tx, context, { found, kind: 'correction-came' });
  return { correctionId, loads: loads.length };
}

/** Refuses `retest-open`, and as `newestResult`. */
async function refuseQuestionedSubject(
  tx: Transaction,
  { found, subject, subjectId }: Concerned,
): Promise<void> {
  if (subject === 'load') await refuseQuestioned(tx, found.row.id, { loadId: subjectId });
  if (subject !== 'result') return;
  const { sampleId } = await newestResult(tx, subjectId);
  await refuseQuestioned(tx, found.row.id, { sampleId });
}

export interface CorrectionToAnswer {
  readonly correctionId: string;
  readonly answer: CorrectionEnd;
  /** Why it is refused. */
  readonly reason?: string;
  readonly key?: string;
}

/**
 * Ends a correction: the other side confirms it (and it takes effect) or refuses it, whoever proposed it withdraws it.
 * Refuses `not-allowed`, `bad-input` (a refusal without a reason), `not-found`, `not-yours` for the wrong side,
 * `correction-over`, and on confirming all that putting it right may.
 */
export async function answerCorrection(
  context: Context,
  { correctionId, answer, reason = '', key }: CorrectionToAnswer,
): Promise<{ readonly resettled: number }> {
  permit(context, 'correct');
  const input = { answer, reason };
  return await doOnce(
    context,
    { verb: 'answer-correction', subject: correctionId, key, input },
    async (tx) => {
      const seen = isId(correctionId) ? await findCorrection(tx, correctionId) : undefined;
      if (!seen) throw new Refusal('not-found', 'There is no such correction.');
      const found = await findOwnAgreement(tx, context.caller, seen.agreementId);
      await lockAgreement(tx, seen.agreementId);
      const correction = await findCorrection(tx, correctionId);
      if (!correction || correction.answer !== null) {
        throw new Refusal('correction-over', 'This correction was answered already.');
      }
      const { partyId, personId } = context.caller;
      if ((answer === 'withdrawn') !== (correction.byPartyId === partyId)) {
        throw new Refusal(
          'not-yours',
          answer === 'withdrawn'
            ? 'Only the side that proposed a correction withdraws it.'
            : 'Your side proposed this correction; the other side confirms or refuses it.',
        );
      }
      const why = answer === 'refused' ? readReason(reason) : null;
      const recorded = { agreementId: seen.agreementId, recordedAt: stamp(context), recordedBy: personId };
      const id = context.newId();
      await insertCorrectionAnswer(
        tx,
        { id, correctionId, answer, reason: why, byPartyId: partyId },
        recorded,
      );
      const fact = { correction: correctionId, answer, reason: why, party: partyId };
      await enterFacts(tx, [{ kind: 'correction-answer', fact, subjectId: id, postings: [] }], recorded);
      await tellPartner(tx, context, { found, kind: 'correction-answered' });
      await endDisputed(tx, context, { found, correctionId });
      if (answer !== 'confirmed') return { resettled: 0 };
      await refuseQuestionedSubject(tx, { found, ...correction });
      const loadIds = await loadsConcerned(tx, { found, ...correction });
      // Whoever proposed it looked at unusual figures, and so did whoever confirms them.
      const resettled = await takeCorrection(tx, context, { found, correction, confirmed: true });
      await issueNotes(tx, context, { frame: await frameOf(tx, context, found), loadIds });
      await holdQuestioned(tx, context, found);
      return { resettled };
    },
  );
}
