/**
 * Set-off: what is on account is used for open invoices. One side proposes it and the other consents; nobody helps itself.
 */

import { parseMinorUnits } from '../../domain/money/minor-units.ts';
import { type SPREADS, spreadOver } from '../../domain/money/spread.ts';
import type { SetOffAnswerFact, SetOffFact } from '../../journal/money-facts.ts';
import { setOffPostings } from '../../journal/money-postings.ts';
import type { CorrectionEnd } from '../../store/rows/correction-rows.ts';
import { findAgreementOf } from '../../store/rows/money/row-stamp.ts';
import { insertSetOff, insertSetOffAnswer } from '../../store/rows/money/set-off-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { type MoneyFrame, moneyFrame } from './money-frame.ts';
import { allocationFacts } from './money-rows.ts';
import { type PartWanted, readSpread, spreadText, storedSpread } from './spread-wanted.ts';

export interface SetOffToPropose {
  readonly agreementId: string;
  /** A decimal string, at most what is on account. */
  readonly amount: string;
  readonly spread?: (typeof SPREADS)[number];
  /** For `as-said`. */
  readonly parts?: readonly PartWanted[];
  readonly reason: string;
  readonly key?: string;
}

/** Returns the proposal's id. Refuses `not-allowed`, `not-found`, `not-yours`, `bad-input`. */
export async function proposeSetOff(
  context: Context,
  { agreementId, amount, spread = 'oldest-first', parts = [], reason, key }: SetOffToPropose,
): Promise<{ readonly setOffId: string }> {
  permit(context, 'record-payment');
  const input = { amount, spread, parts: parts.map((part) => ({ ...part })), reason };
  return await doOnce(context, { verb: 'propose-set-off', subject: agreementId, key, input }, async (tx) => {
    const frame = await moneyFrame(tx, context, agreementId);
    const units = readAmount(frame, amount);
    const fact: SetOffFact = {
      amount: frame.print(units),
      currency: frame.money.currency,
      spread: spreadText(readSpread(frame, { kind: spread, parts, amount: units }), frame),
      reason: readReason(reason),
      party: context.caller.partyId,
    };
    const setOffId = context.newId();
    await insertSetOff(tx, { id: setOffId, fact }, frame.recorded);
    await enterFacts(tx, [{ kind: 'set-off', fact, subjectId: setOffId, postings: [] }], frame.recorded);
    await tellPartner(tx, context, { found: frame.found, kind: 'set-off-came' });
    return { setOffId };
  });
}

function readAmount({ standing, money, print }: MoneyFrame, text: string): bigint {
  const units = parseMinorUnits(text.trim(), money);
  if (units !== undefined && units > 0n && units <= standing.onAccount) return units;
  const most = standing.onAccount > 0n ? standing.onAccount : 0n;
  throw badInput([
    {
      column: 'amount',
      message: `must be an amount above 0 and at most the ${print(most)} on account; found ${JSON.stringify(text)}`,
    },
  ]);
}

export interface SetOffToAnswer {
  readonly setOffId: string;
  readonly answer: CorrectionEnd;
  /** Why it is refused. */
  readonly reason?: string;
  readonly key?: string;
}

/**
 * The other side consents or refuses; whoever proposed it withdraws it. Refuses `not-allowed`, `not-found`, `not-yours`,
 * `ended-already`, `bad-input` for a refusal without a reason, and `not-ready` where the money is no longer on account or
 * nothing is open that it could be used for.
 */
export async function answerSetOff(
  context: Context,
  { setOffId, answer, reason = '', key }: SetOffToAnswer,
): Promise<{ readonly answered: CorrectionEnd }> {
  permit(context, 'record-payment');
  const asked = { verb: 'answer-set-off', subject: setOffId, key, input: { answer, reason } };
  return await doOnce(context, asked, async (tx) => {
    const agreementId = isId(setOffId) ? await findAgreementOf(tx, 'set_off', setOffId) : undefined;
    if (agreementId === undefined) throw new Refusal('not-found', 'There is no such proposal.');
    const frame = await moneyFrame(tx, context, agreementId);
    const setOff = frame.rows.setOffs.find(({ id }) => id === setOffId);
    if (!setOff) throw new Refusal('not-found', 'There is no such proposal.');
    if (frame.rows.setOffAnswers.some(({ fact }) => fact.setOff === setOffId)) {
      throw new Refusal('ended-already', 'This proposal was answered already.');
    }
    if ((answer === 'withdrawn') !== (setOff.fact.party === context.caller.partyId)) {
      throw new Refusal(
        'not-yours',
        answer === 'withdrawn'
          ? 'Only the side that proposed it withdraws it.'
          : 'Your side proposed this; the other side consents or refuses.',
      );
    }
    const allocated = answer === 'confirmed' ? allocate(frame, setOff.fact) : [];
    const fact: SetOffAnswerFact = {
      setOff: setOffId,
      answer,
      reason: answer === 'refused' ? readReason(reason) : null,
      party: context.caller.partyId,
      allocated: allocationFacts(allocated, frame.print),
    };
    const id = context.newId();
    await insertSetOffAnswer(tx, { id, fact }, frame.recorded);
    const postings = setOffPostings(allocated, frame.money);
    await enterFacts(tx, [{ kind: 'set-off-answer', fact, subjectId: id, postings }], frame.recorded);
    await tellPartner(tx, context, { found: frame.found, kind: 'set-off-answered' });
    return { answered: answer };
  });
}

function allocate(frame: MoneyFrame, { amount, spread }: SetOffFact) {
  const { standing, money, print, today } = frame;
  const units = parseMinorUnits(amount, money) ?? 0n;
  if (units > standing.onAccount) {
    const left = standing.onAccount > 0n ? standing.onAccount : 0n;
    throw new Refusal('not-ready', `Only ${print(left)} is on account still, so ${amount} cannot be used.`);
  }
  const allocated = spreadOver(standing.documents, storedSpread(spread, frame), {
    amount: units,
    paidOn: today,
    discount: undefined,
    money,
  });
  if (allocated.length === 0) throw new Refusal('not-ready', 'Nothing is due that it could be used for.');
  return allocated;
}
