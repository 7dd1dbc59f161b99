/**
 * What two parties put to each other about a season, and what the other side says to it.
 */
import type { SeasonNoteAnswerFact, SeasonNoteFact } from '../../journal/season-facts.ts';
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { New } from './money/payment-rows.ts';
import { OF_AGREEMENTS, STAMP, type Stamped } from './money/row-stamp.ts';
import type { Recorded } from './result-rows.ts';

/** With the tickets of the loads that it is about, as they stand. */
export type SeasonNoteRow = Stamped<SeasonNoteFact> & { readonly ticket: string | null };
export type SeasonNoteAnswerRow = Stamped<SeasonNoteAnswerFact>;

export interface SeasonNoteRows {
  /** The first put first. */
  readonly notes: readonly SeasonNoteRow[];
  readonly answers: readonly SeasonNoteAnswerRow[];
}

export async function readSeasonNotes(
  tx: Transaction,
  agreementIds: readonly string[],
): Promise<SeasonNoteRows> {
  return {
    notes: await tx.$queryRawUnsafe<SeasonNoteRow[]>(
      `SELECT ${STAMP}, json_build_object('kind', t.kind, 'load', t.load_id, 'ofAgreement', t.of_agreement_id,
         'ofLoad', t.of_load_id, 'amount', t.amount::text, 'reason', t.reason, 'party', t.by_party_id) AS fact,
         (SELECT coalesce(v.ticket, l.ticket) FROM load l
          LEFT JOIN LATERAL (
            SELECT ticket FROM load_version v WHERE v.agreement_id = l.agreement_id AND v.load_id = l.id
            ORDER BY v.version DESC LIMIT 1) v ON true
          WHERE l.agreement_id = coalesce(t.of_agreement_id, t.agreement_id) AND l.id = coalesce(t.of_load_id, t.load_id)) AS ticket
       FROM season_note t WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
      agreementIds,
    ),
    answers: await tx.$queryRawUnsafe<SeasonNoteAnswerRow[]>(
      `SELECT ${STAMP}, json_build_object('note', t.note_id, 'answer', t.answer, 'reason', t.reason,
         'document', t.document_id, 'party', t.by_party_id) AS fact
       FROM season_note_answer t WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
      agreementIds,
    ),
  };
}

export async function insertSeasonNote(
  tx: Transaction,
  { id, fact }: New<SeasonNoteFact>,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'season_note', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [id]],
    kind: ['text', [fact.kind]],
    load_id: ['uuid', [fact.load]],
    of_agreement_id: ['uuid', [fact.ofAgreement]],
    of_load_id: ['uuid', [fact.ofLoad]],
    amount: ['numeric', [fact.amount]],
    reason: ['text', [fact.reason]],
    by_party_id: ['uuid', [fact.party]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

export async function insertSeasonNoteAnswer(
  tx: Transaction,
  { id, fact }: New<SeasonNoteAnswerFact>,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'season_note_answer', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [id]],
    note_id: ['uuid', [fact.note]],
    answer: ['text', [fact.answer]],
    reason: ['text', [fact.reason]],
    document_id: ['uuid', [fact.document]],
    by_party_id: ['uuid', [fact.party]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}
