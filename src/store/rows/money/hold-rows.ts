/**
 * Amounts that are held back while they are questioned, and how each hold ended.
 */
import type { HoldEndFact, HoldFact } from '../../../journal/money-facts.ts';
import type { Transaction } from '../../open-store.ts';
import { insertRows } from '../insert-rows.ts';
import type { Recorded } from '../result-rows.ts';
import type { New } from './payment-rows.ts';
import { OF_AGREEMENTS, STAMP, type Stamped } from './row-stamp.ts';

export type HoldRow = Stamped<HoldFact>;
export type HoldEndRow = Stamped<HoldEndFact>;

export async function insertHolds(
  tx: Transaction,
  holds: readonly New<HoldFact>[],
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'hold', {
    agreement_id: ['uuid', holds.map(() => agreementId)],
    id: ['uuid', holds.map(({ id }) => id)],
    document_id: ['uuid', holds.map(({ fact }) => fact.document)],
    load_id: ['uuid', holds.map(({ fact }) => fact.load)],
    amount: ['numeric', holds.map(({ fact }) => fact.amount)],
    reason: ['text', holds.map(({ fact }) => fact.reason)],
    by_party_id: ['uuid', holds.map(({ fact }) => fact.party)],
    correction_id: ['uuid', holds.map(({ fact }) => fact.correction)],
    retest_id: ['uuid', holds.map(({ fact }) => fact.retest ?? null)],
    carried_from: ['uuid', holds.map(({ fact }) => fact.carriedFrom ?? null)],
    recorded_at: ['timestamptz', holds.map(() => recordedAt)],
    recorded_by: ['uuid', holds.map(() => recordedBy)],
  });
}

export async function insertHoldEnds(
  tx: Transaction,
  ends: readonly New<HoldEndFact>[],
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'hold_end', {
    agreement_id: ['uuid', ends.map(() => agreementId)],
    id: ['uuid', ends.map(({ id }) => id)],
    hold_id: ['uuid', ends.map(({ fact }) => fact.hold)],
    ending: ['text', ends.map(({ fact }) => fact.ending)],
    by_party_id: ['uuid', ends.map(({ fact }) => fact.party)],
    recorded_at: ['timestamptz', ends.map(() => recordedAt)],
    recorded_by: ['uuid', ends.map(() => recordedBy)],
  });
}

/** The holds of some agreements, the first placed first. */
export async function readHolds(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly HoldRow[]> {
  return await tx.$queryRawUnsafe<HoldRow[]>(
    `SELECT ${STAMP}, jsonb_build_object('document', t.document_id, 'load', t.load_id, 'amount', t.amount::text,
       'reason', t.reason, 'party', t.by_party_id, 'correction', t.correction_id)
       || CASE WHEN t.retest_id IS NULL THEN '{}'::jsonb ELSE jsonb_build_object('retest', t.retest_id) END
       || CASE WHEN t.carried_from IS NULL THEN '{}'::jsonb ELSE jsonb_build_object('carriedFrom', t.carried_from) END AS fact
     FROM hold t WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
    agreementIds,
  );
}

export async function readHoldEnds(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<readonly HoldEndRow[]> {
  return await tx.$queryRawUnsafe<HoldEndRow[]>(
    `SELECT ${STAMP}, json_build_object('hold', t.hold_id, 'ending', t.ending, 'party', t.by_party_id) AS fact
     FROM hold_end t WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
    agreementIds,
  );
}
