/**
 * A lender's written notice of a lien on the feed: from then on payments are made out to the lender as well, until the
 * buyer records that the lien is over.
 */

import { parseLocalDate } from '../../domain/dates/local-date.ts';
import { LIEN_COLUMNS, readLienRow } from '../../domain/money/lien-row.ts';
import type { LienEndFact, LienNoticeFact } from '../../journal/money-facts.ts';
import { insertLienEnd, insertLienNotice } from '../../store/rows/money/lien-rows.ts';
import { findAgreementOf } from '../../store/rows/money/row-stamp.ts';
import { isId } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { readReason } from '../corrections/read-reason.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tellPartner } from '../notices/tell-partner.ts';
import { badInput, type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseUnusual } from '../refuse-unusual.ts';
import { moneyFrame } from './money-frame.ts';
import { liveLiens } from './money-rows.ts';

export interface LienToRecord {
  readonly agreementId: string;
  /** `lender`, `debtor`, `crop_year`, `county`, `conditions` of payment and `received_on`. */
  readonly notice: InputRow;
  readonly confirmed?: boolean;
  readonly key?: string;
}

/**
 * Either side records a notice. Refuses `not-allowed`, `not-found`, `not-yours`, `bad-input`, and `unusual` where the same
 * lender has one that is not over.
 */
export async function recordLien(
  context: Context,
  { agreementId, notice, confirmed, key }: LienToRecord,
): Promise<{ readonly lienId: string }> {
  permit(context, 'keep-lien');
  const asked = { verb: 'record-lien', subject: agreementId, key, input: notice };
  return await doOnce(context, asked, async (tx) => {
    const frame = await moneyFrame(tx, context, agreementId);
    const [read] = readInputRows([notice], {
      shape: LIEN_COLUMNS,
      read: (row) => readLienRow(row, frame.today),
      key: ['lender'],
    });
    if (!read) throw new Error('A notice that was read is not there');
    const twin = liveLiens(frame.rows).find(({ fact }) => fact.lender === read.found.lender);
    refuseUnusual(
      [twin && `A notice of ${twin.fact.lender}, received ${twin.fact.receivedOn}, stands already`],
      confirmed,
    );
    const lienId = context.newId();
    const fact: LienNoticeFact = { ...read.found, party: context.caller.partyId };
    await insertLienNotice(tx, { id: lienId, fact }, frame.recorded);
    await enterFacts(tx, [{ kind: 'lien-notice', fact, subjectId: lienId, postings: [] }], frame.recorded);
    await tellPartner(tx, context, { found: frame.found, kind: 'lien-came' });
    return { lienId };
  });
}

export interface LienToEnd {
  readonly lienId: string;
  /** `YYYY-MM-DD`. */
  readonly endedOn: string;
  /** What says so: the lender's release, for one. */
  readonly reason: string;
  readonly key?: string;
}

/** Refuses `not-allowed`, `not-found`, `not-yours` for the seller, `bad-input`, `ended-already`. */
export async function endLien(
  context: Context,
  { lienId, endedOn, reason, key }: LienToEnd,
): Promise<{ readonly ended: string }> {
  permit(context, 'keep-lien');
  const asked = { verb: 'end-lien', subject: lienId, key, input: { endedOn, reason } };
  return await doOnce(context, asked, async (tx) => {
    const agreementId = isId(lienId) ? await findAgreementOf(tx, 'lien_notice', lienId) : undefined;
    if (agreementId === undefined) throw new Refusal('not-found', 'There is no such notice.');
    const frame = await moneyFrame(tx, context, agreementId);
    if (frame.side !== 'buyer') {
      throw new Refusal(
        'not-yours',
        'The buyer pays and answers to the lender, so the buyer records that a lien is over. Send it the release.',
      );
    }
    const lien = liveLiens(frame.rows).find(({ id }) => id === lienId);
    if (!lien) throw new Refusal('ended-already', 'This lien is over.');
    const day = parseLocalDate(endedOn.trim());
    if (!day || day < lien.fact.receivedOn || day > frame.today) {
      const message = `must be a day from ${lien.fact.receivedOn}, when the notice came, to today, ${frame.today}`;
      throw badInput([{ column: 'ended_on', message }]);
    }
    const id = context.newId();
    const party = context.caller.partyId;
    const fact: LienEndFact = { lien: lienId, endedOn: day, reason: readReason(reason), party };
    await insertLienEnd(tx, { id, fact }, frame.recorded);
    await enterFacts(tx, [{ kind: 'lien-end', fact, subjectId: id, postings: [] }], frame.recorded);
    await tellPartner(tx, context, { found: frame.found, kind: 'lien-ended' });
    return { ended: lien.fact.lender };
  });
}
