/**
 * An allowance for a load outside its ranges: one side proposes money off, the other confirms, and the load is accepted
 * at that. It prices as one more line behind the agreement's own, and stands from then on.
 */
import { ALLOWANCE_COLUMNS, type Allowance, readAllowanceRow } from '../../domain/settlement/allowance.ts';
import { namePer } from '../../domain/settlement/per-quantity.ts';
import { canonicalText } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import {
  type AllowanceProposalRow,
  findAllowanceProposal,
  readAllowanceProposals,
  readAllowances,
} from '../../store/rows/allowance-rows.ts';
import {
  type CorrectionEnd,
  insertCorrection,
  insertCorrectionAnswer,
} from '../../store/rows/correction-rows.ts';
import { findLoad, type LoadRow, readLoads } from '../../store/rows/load-rows.ts';
import { type FoundAgreement, findAgreement, findOwnAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { correctionFact } from '../corrections/correction-fact.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseSettled } from '../settlements/refuse-settled.ts';
import { outcomesOf } from './load-views.ts';

export interface AllowanceToPropose {
  readonly loadId: string;
  /** `taken_off` (money, above 0), `per` (a weight or `load`) and for a weight `weight`: `as-fed` or `dry-matter`. */
  readonly allowance: InputRow;
  readonly reason: string;
  readonly key?: string;
}

/**
 * Returns the proposal's id. Refuses `not-allowed`, `bad-input`, `not-found`, `not-yours`, `already-settled`, `not-ready`
 * for a load that no decision of the buyer's is needed about, `correction-open` while one is proposed for it, and
 * `correction-over` where one was agreed on.
 */
export async function proposeAllowance(
  context: Context,
  { loadId, allowance, reason, key }: AllowanceToPropose,
): Promise<{ readonly proposalId: string }> {
  permit(context, 'record-choice');
  const input = { allowance, reason };
  return await doOnce(context, { verb: 'propose-allowance', subject: loadId, key, input }, async (tx) => {
    const seen = isId(loadId) ? await findLoad(tx, loadId) : undefined;
    if (!seen) throw new Refusal('not-found', 'There is no such load.');
    const found = await findOwnAgreement(tx, context.caller, seen.agreementId);
    const [read] = readInputRows([allowance], {
      shape: ALLOWANCE_COLUMNS,
      read: readAllowanceRow,
      key: ['per'],
    });
    if (!read) throw new Error('An allowance that was read is not there');
    const why = readReason(reason);
    const agreementId = seen.agreementId;
    await lockAgreement(tx, agreementId);
    await refuseUndecided(tx, found, loadId);
    const { partyId, personId } = context.caller;
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
    const proposal = {
      id: context.newId(),
      subject: 'allowance',
      subjectId: loadId,
      document: canonicalText(read.found),
      reason: why,
      byPartyId: partyId,
    } as const;
    await insertCorrection(tx, proposal, recorded);
    const fact = correctionFact(proposal);
    await enterFacts(tx, [{ kind: 'correction', fact, subjectId: proposal.id, postings: [] }], recorded);
    await tellPartner(tx, context, { found, kind: 'allowance-came' });
    return { proposalId: proposal.id };
  });
}

/** Refuses where nothing is to be agreed on about the load, or not any more. */
async function refuseUndecided(tx: Transaction, found: FoundAgreement, loadId: string): Promise<void> {
  const load = await refuseGone(tx, found, loadId);
  const open = (await readAllowanceProposals(tx, found.row.id)).find(
    (row) => row.subjectId === loadId && row.answer === null,
  );
  if (open) {
    throw new Refusal(
      'correction-open',
      `An allowance for load ${load.ticket} is proposed already. Confirm, refuse or withdraw that one first.`,
    );
  }
  const [{ outcome } = { outcome: undefined }] = await outcomesOf(tx, found, [load]);
  const isAsked = outcome?.status === 'waiting' && outcome.reason === 'choice-needed';
  if (isAsked || outcome?.status === 'refused') return;
  throw new Refusal(
    'not-ready',
    `Load ${load.ticket} does not wait for a decision of ${found.row.buyerName}, so there is nothing to allow for.`,
  );
}

/** Refuses `not-found` for a void load, `already-settled`, and `correction-over` where one was agreed on. */
async function refuseGone(tx: Transaction, found: FoundAgreement, loadId: string): Promise<LoadRow> {
  const agreementId = found.row.id;
  const [load] = await readLoads(tx, agreementId, [loadId]);
  if (!load || load.isVoid) throw new Refusal('not-found', 'There is no such load.');
  await refuseSettled(tx, agreementId, [{ loadId, ticket: load.ticket }]);
  if ((await readAllowances(tx, agreementId, [loadId])).length > 0) {
    throw new Refusal('correction-over', `An allowance for load ${load.ticket} was agreed on. It stands.`);
  }
  return load;
}

export interface AllowanceToAnswer {
  readonly proposalId: string;
  readonly answer: CorrectionEnd;
  /** Why it is refused. */
  readonly reason?: string;
  readonly key?: string;
}

/**
 * Ends a proposal: the other side confirms it, and the load is accepted at the allowance, or refuses it; whoever proposed
 * it withdraws it. Refuses `not-allowed`, `bad-input` (a refusal without a reason), `not-found`, `not-yours` for the wrong
 * side, `correction-over`, and on confirming `already-settled`.
 */
export async function answerAllowance(
  context: Context,
  { proposalId, answer, reason = '', key }: AllowanceToAnswer,
): Promise<{ readonly answered: CorrectionEnd }> {
  permit(context, 'record-choice');
  const input = { answer, reason };
  return await doOnce(context, { verb: 'answer-allowance', subject: proposalId, key, input }, async (tx) => {
    const seen = isId(proposalId) ? await findAllowanceProposal(tx, proposalId) : undefined;
    if (!seen) throw new Refusal('not-found', 'There is no such proposal.');
    const { agreementId, subjectId } = seen;
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    await lockAgreement(tx, agreementId);
    const proposal = await findAllowanceProposal(tx, proposalId);
    if (!proposal || proposal.answer !== null) {
      throw new Refusal('correction-over', 'This proposal was answered already.');
    }
    const { partyId, personId } = context.caller;
    if ((answer === 'withdrawn') !== (proposal.byPartyId === partyId)) {
      throw new Refusal(
        'not-yours',
        answer === 'withdrawn'
          ? 'Only the side that proposed an allowance withdraws it.'
          : 'Your side proposed this allowance; the other side confirms or refuses it.',
      );
    }
    if (answer === 'confirmed') await refuseGone(tx, found, subjectId);
    const why = answer === 'refused' ? readReason(reason) : null;
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
    const id = context.newId();
    await insertCorrectionAnswer(
      tx,
      { id, correctionId: proposalId, answer, reason: why, byPartyId: partyId },
      recorded,
    );
    const fact = { correction: proposalId, answer, reason: why, party: partyId };
    await enterFacts(tx, [{ kind: 'correction-answer', fact, subjectId: id, postings: [] }], recorded);
    await tellPartner(tx, context, { found, kind: 'allowance-answered' });
    return { answered: answer };
  });
}

export interface AllowanceView extends Allowance {
  readonly id: string;
  readonly loadId: string;
  readonly ticket: string;
  /** "3.50 USD off per short ton as-fed". */
  readonly words: string;
  readonly reason: string;
  readonly isOurs: boolean;
  /** Null while it is open. */
  readonly answer: CorrectionEnd | null;
  readonly answerReason: string | null;
}

/** The allowances of an agreement, the first proposed first. Refuses `not-allowed`, `not-found`. */
export async function readAllowanceList(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<readonly AllowanceView[]> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const { agreement } = await findAgreement(tx, agreementId);
    const rows = await readAllowanceProposals(tx, agreementId);
    const loads = await readLoads(
      tx,
      agreementId,
      rows.map(({ subjectId }) => subjectId),
    );
    const tickets = new Map(loads.map(({ id, ticket }) => [id, ticket]));
    return rows.map((row) => ({
      ...viewOf(row, agreement.currency),
      ticket: tickets.get(row.subjectId) ?? '',
      isOurs: row.byPartyId === context.caller.partyId,
    }));
  });
}

function viewOf(row: AllowanceProposalRow, currency: string): Omit<AllowanceView, 'ticket' | 'isOurs'> {
  const allowance = JSON.parse(row.document) as Allowance;
  const { takenOff, per, weight } = allowance;
  const { id, subjectId, reason, answer, answerReason } = row;
  const words = `${takenOff} ${currency} off per ${namePer({ per, weight: weight ?? undefined })}`;
  return { ...allowance, id, loadId: subjectId, words, reason, answer, answerReason };
}
