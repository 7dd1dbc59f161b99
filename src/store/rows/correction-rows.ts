/**
 * Corrections that one side proposes after settlement, and how they ended.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

export type CorrectionSubject = 'load' | 'result' | 'quote';
export type CorrectionEnd = 'confirmed' | 'refused' | 'withdrawn';

export interface CorrectionRow {
  readonly id: string;
  readonly agreementId: string;
  readonly subject: CorrectionSubject;
  readonly subjectId: string;
  /** The figures as they are to be, canonical JSON. */
  readonly document: string;
  readonly reason: string;
  readonly byPartyId: string;
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
  readonly answerId: string | null;
  readonly answer: CorrectionEnd | null;
  readonly answerReason: string | null;
  readonly answeredBy: string | null;
}

/** Corrections, and allowances too: those are no corrections, and are agreed on in the same way. */
export const PROPOSALS = `
  SELECT c.id, c.agreement_id AS "agreementId", c.subject, c.subject_id AS "subjectId", c.document, c.reason,
    c.by_party_id AS "byPartyId",
    to_char(c.recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt",
    a.id AS "answerId", a.answer, a.reason AS "answerReason", a.by_party_id AS "answeredBy"
  FROM correction c
  LEFT JOIN correction_answer a ON a.agreement_id = c.agreement_id AND a.correction_id = c.id`;

/** The corrections of an agreement, or of all that the transaction may see; the first proposed first. */
export async function readCorrections(
  tx: Transaction,
  agreementId: string | undefined,
): Promise<readonly CorrectionRow[]> {
  return await tx.$queryRawUnsafe<CorrectionRow[]>(
    `${PROPOSALS} WHERE c.subject <> 'allowance' AND ($1::uuid IS NULL OR c.agreement_id = $1::uuid)
     ORDER BY c.recorded_at, c.id`,
    agreementId ?? null,
  );
}

/** Corrections and allowances that nobody has answered, of all agreements that the transaction may see. */
export async function readOpenProposals(
  tx: Transaction,
): Promise<
  readonly (Omit<CorrectionRow, 'subject'> & { readonly subject: CorrectionSubject | 'allowance' })[]
> {
  return await tx.$queryRawUnsafe(`${PROPOSALS} WHERE a.id IS NULL ORDER BY c.recorded_at, c.id`);
}

/** One correction, or undefined where there is none that the transaction may see. */
export async function findCorrection(tx: Transaction, id: string): Promise<CorrectionRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<CorrectionRow[]>(
    `${PROPOSALS} WHERE c.subject <> 'allowance' AND c.id = $1::uuid`,
    id,
  );
  return row;
}

export async function insertCorrection(
  tx: Transaction,
  correction: Pick<CorrectionRow, 'id' | 'subjectId' | 'document' | 'reason' | 'byPartyId'> & {
    readonly subject: CorrectionSubject | 'allowance';
  },
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'correction', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [correction.id]],
    subject: ['text', [correction.subject]],
    subject_id: ['uuid', [correction.subjectId]],
    document: ['text', [correction.document]],
    reason: ['text', [correction.reason]],
    by_party_id: ['uuid', [correction.byPartyId]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

export interface NewCorrectionAnswer {
  readonly id: string;
  readonly correctionId: string;
  readonly answer: CorrectionEnd;
  readonly reason: string | null;
  readonly byPartyId: string;
}

export async function insertCorrectionAnswer(
  tx: Transaction,
  answer: NewCorrectionAnswer,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'correction_answer', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [answer.id]],
    correction_id: ['uuid', [answer.correctionId]],
    answer: ['text', [answer.answer]],
    reason: ['text', [answer.reason]],
    by_party_id: ['uuid', [answer.byPartyId]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

/** Ids of the loads whose settlement, as it stands, rests on a result of a sample, or on a quote. */
export async function readSettledUpon(
  tx: Transaction,
  agreementId: string,
  on: { readonly resultId: string } | { readonly quoteId: string },
): Promise<readonly string[]> {
  const [rests, id] =
    'resultId' in on
      ? [
          't.result_id IN (SELECT o.id FROM result r JOIN result o USING (agreement_id, sample_id) WHERE r.id = $2::uuid)',
          on.resultId,
        ]
      : [
          `EXISTS (SELECT FROM settlement_quote q WHERE q.agreement_id = t.agreement_id AND q.settlement_id = t.id
             AND q.quote_id IN (SELECT o.id FROM quote r JOIN quote o USING (agreement_id, series_id, quoted_on) WHERE r.id = $2::uuid))`,
          on.quoteId,
        ];
  const rows = await tx.$queryRawUnsafe<{ loadId: string }[]>(
    `SELECT DISTINCT t.load_id AS "loadId" FROM settlement t
     WHERE t.agreement_id = $1::uuid AND ${rests}
       AND NOT EXISTS (SELECT FROM settlement n WHERE n.agreement_id = t.agreement_id AND n.load_id = t.load_id AND n.version > t.version)`,
    agreementId,
    id,
  );
  return rows.map(({ loadId }) => loadId);
}
