/**
 * Holds back what is questioned of a document: the undisputed part stays due. The buyer says what it makes of a load
 * itself; the difference waits until it lets go, or until a note or a decision answers it.
 */

import { minorUnits, parseMinorUnits } from '../../domain/money/minor-units.ts';
import type { HoldFact } from '../../journal/money-facts.ts';
import { holdPostings } from '../../journal/money-postings.ts';
import type { Transaction } from '../../store/open-store.ts';
import { findDocument } from '../../store/rows/money/document-rows.ts';
import { insertHolds } from '../../store/rows/money/hold-rows.ts';
import { findAgreementOf } from '../../store/rows/money/row-stamp.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { endHolds } from './end-holds.ts';
import { type MoneyFrame, moneyFrame } from './money-frame.ts';
import { liveHolds } from './money-rows.ts';

export interface AmountToHold {
  readonly documentId: string;
  /** The load that is questioned; without one, the whole document. */
  readonly loadId?: string;
  /** What the buyer makes of it, a decimal string: what is more is held. */
  readonly figure: string;
  readonly reason: string;
  readonly key?: string;
}

/**
 * Returns what is held. Refuses `not-allowed`, `not-found`, `not-yours` for the seller, `bad-input` where nothing would be
 * held or more than is open, and `not-ready` for a document that is paid.
 */
export async function holdAmount(
  context: Context,
  { documentId, loadId, figure, reason, key }: AmountToHold,
): Promise<{ readonly holdId: string; readonly held: string }> {
  permit(context, 'question-amount');
  const input = { loadId: loadId ?? null, figure, reason };
  return await doOnce(context, { verb: 'hold-amount', subject: documentId, key, input }, async (tx) => {
    const document = isId(documentId) ? await findDocument(tx, documentId) : undefined;
    if (!document) throw new Refusal('not-found', 'There is no such document.');
    const frame = await moneyFrame(tx, context, document.agreementId);
    if (frame.side !== 'buyer') {
      throw new Refusal(
        'not-yours',
        'Whoever is to pay holds an amount back; the seller corrects or answers.',
      );
    }
    const amount = questionedAmount(frame, { documentId, loadId, figure });
    const fact: HoldFact = {
      document: documentId,
      load: loadId ?? null,
      amount: frame.print(amount),
      reason: readReason(reason),
      party: context.caller.partyId,
      correction: null,
    };
    const [holdId] = await enterHolds(tx, context, { frame, facts: [fact] });
    await tellPartner(tx, context, { found: frame.found, kind: 'amount-held' });
    return { holdId: holdId ?? '', held: fact.amount };
  });
}

function questionedAmount(
  { rows, standing, money, print }: MoneyFrame,
  {
    documentId,
    loadId,
    figure,
  }: Pick<AmountToHold, 'documentId' | 'figure'> & { readonly loadId: string | undefined },
): bigint {
  const standingNow = standing.documents.find(({ id }) => id === documentId);
  const row = rows.documents.find(({ id }) => id === documentId);
  if (!standingNow || !row) throw new Refusal('not-found', 'There is no such document.');
  const free = standingNow.open - standingNow.held;
  if (free <= 0n) {
    throw new Refusal(
      'not-ready',
      'Nothing of this document is due any more, so there is nothing to hold back.',
    );
  }
  const part = row.fact.loads.find(({ load }) => load === loadId);
  if (loadId !== undefined && !part) throw new Refusal('not-found', 'That load is not on this document.');
  const asked = part
    ? minorUnits(part.goods, money) - minorUnits(part.deductions, money) - minorUnits(part.advance, money)
    : standingNow.payable;
  const own = parseMinorUnits(figure.trim(), money);
  if (own === undefined || own < 0n || own >= asked) {
    throw badInput([
      {
        column: 'figure',
        message: `must be what you make of it yourself, an amount from 0 to less than ${print(asked)}; found ${JSON.stringify(figure)}`,
      },
    ]);
  }
  if (asked - own > free) {
    const message = `would hold back ${print(asked - own)}; only ${print(free)} of the document is due still`;
    throw badInput([{ column: 'figure', message }]);
  }
  return asked - own;
}

/** Writes holds and posts them; returns their ids. The agreement must be locked. */
export async function enterHolds(
  tx: Transaction,
  context: Context,
  { frame, facts }: { readonly frame: MoneyFrame; readonly facts: readonly HoldFact[] },
): Promise<readonly string[]> {
  const holds = facts.map((fact) => ({ id: context.newId(), fact }));
  await insertHolds(tx, holds, frame.recorded);
  await enterFacts(
    tx,
    holds.map(({ id, fact }) => ({
      kind: 'hold' as const,
      fact,
      subjectId: id,
      postings: holdPostings(minorUnits(fact.amount, frame.money), frame.money),
    })),
    frame.recorded,
  );
  return holds.map(({ id }) => id);
}

/**
 * Lets go of what was held: it is due again. Refuses `not-allowed`, `not-found`, `not-yours` for whoever did not place it,
 * `ended-already`, and `correction-open` or `retest-open` where a correction or a question decides.
 */
export async function releaseHold(
  context: Context,
  { holdId, key }: { readonly holdId: string; readonly key?: string },
): Promise<{ readonly released: string }> {
  permit(context, 'question-amount');
  return await doOnce(context, { verb: 'release-hold', subject: holdId, key, input: {} }, async (tx) => {
    const agreementId = isId(holdId) ? await findAgreementOf(tx, 'hold', holdId) : undefined;
    if (agreementId === undefined) throw new Refusal('not-found', 'There is no such hold.');
    const frame = await moneyFrame(tx, context, agreementId);
    const hold = frame.rows.holds.find(({ id }) => id === holdId);
    if (hold?.fact.party !== context.caller.partyId) {
      throw new Refusal('not-yours', 'Whoever holds an amount back lets go of it.');
    }
    if (!liveHolds(frame.rows).includes(hold)) throw new Refusal('ended-already', 'This hold is over.');
    if (hold.fact.retest !== undefined) {
      throw new Refusal(
        'retest-open',
        'A question is open, and what it would change is held until it is decided. Propose to withdraw it instead.',
      );
    }
    if (hold.fact.correction !== null) {
      throw new Refusal(
        'correction-open',
        'A correction is proposed, and what it would change is held until it is answered. Withdraw it instead.',
      );
    }
    await endHolds(tx, context, { frame, holds: [hold], ending: 'released' });
    await tellPartner(tx, context, { found: frame.found, kind: 'amount-released' });
    return { released: hold.fact.amount };
  });
}
