/**
 * Lenders' notices of a lien on the feed, and which are over.
 */
import type { LienEndFact, LienNoticeFact } from '../../../journal/money-facts.ts';
import type { Transaction } from '../../open-store.ts';
import { insertRows } from '../insert-rows.ts';
import type { Recorded } from '../result-rows.ts';
import type { New } from './payment-rows.ts';
import { OF_AGREEMENTS, STAMP, type Stamped } from './row-stamp.ts';

export type LienNoticeRow = Stamped<LienNoticeFact>;
export type LienEndRow = Stamped<LienEndFact>;

export async function insertLienNotice(
  tx: Transaction,
  { id, fact }: New<LienNoticeFact>,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'lien_notice', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [id]],
    lender: ['text', [fact.lender]],
    debtor: ['text', [fact.debtor]],
    crop_year: ['int', [fact.cropYear]],
    county: ['text', [fact.county]],
    conditions: ['text', [fact.conditions]],
    received_on: ['date', [fact.receivedOn]],
    by_party_id: ['uuid', [fact.party]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

export async function insertLienEnd(
  tx: Transaction,
  { id, fact }: New<LienEndFact>,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'lien_end', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [id]],
    lien_id: ['uuid', [fact.lien]],
    ended_on: ['date', [fact.endedOn]],
    reason: ['text', [fact.reason]],
    by_party_id: ['uuid', [fact.party]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

/** The notices of some agreements, the first recorded first. */
export async function readLienNotices(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly LienNoticeRow[]> {
  return await tx.$queryRawUnsafe<LienNoticeRow[]>(
    `SELECT ${STAMP}, json_build_object('lender', t.lender, 'debtor', t.debtor, 'cropYear', t.crop_year::text,
       'county', t.county, 'conditions', t.conditions, 'receivedOn', t.received_on::text, 'party', t.by_party_id) AS fact
     FROM lien_notice t WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
    agreementIds,
  );
}

export async function readLienEnds(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly LienEndRow[]> {
  return await tx.$queryRawUnsafe<LienEndRow[]>(
    `SELECT ${STAMP}, json_build_object('lien', t.lien_id, 'endedOn', t.ended_on::text, 'reason', t.reason,
       'party', t.by_party_id) AS fact
     FROM lien_end t WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
    agreementIds,
  );
}
