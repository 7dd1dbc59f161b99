/**
 * Questions about weights and results: what was asked, what was tested, what each side said, and how each ended. Every row
 * comes with the fact that the journal remembers of it.
 */
import type {
  RetestEndingFact,
  RetestFact,
  RetestFigureAnswerFact,
  RetestFigureFact,
  RetestProposalAnswerFact,
  RetestProposalFact,
} from '../../journal/retest-facts.ts';
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import { OF_AGREEMENTS, STAMP, type Stamped } from './money/row-stamp.ts';
import type { Recorded } from './result-rows.ts';

export type RetestRow = Stamped<RetestFact> & {
  /** The sample's name, and the load's ticket as it stands now. */
  readonly sample: string | null;
  readonly ticket: string | null;
};
export type RetestFigureRow = Stamped<RetestFigureFact>;
export type RetestProposalRow = Stamped<RetestProposalFact>;
export type RetestEndingRow = Stamped<RetestEndingFact>;

/** All that was recorded of some agreements' questions, each list with its first row first. */
export interface RetestRows {
  readonly questions: readonly RetestRow[];
  readonly figures: readonly RetestFigureRow[];
  readonly figureAnswers: readonly Stamped<RetestFigureAnswerFact>[];
  readonly proposals: readonly RetestProposalRow[];
  readonly proposalAnswers: readonly Stamped<RetestProposalAnswerFact>[];
  readonly endings: readonly RetestEndingRow[];
}

export async function readRetestRows(tx: Transaction, agreementIds: readonly string[]): Promise<RetestRows> {
  const rowsOf = async <Row>(table: string, fact: string, more = ''): Promise<readonly Row[]> =>
    await tx.$queryRawUnsafe<Row[]>(
      `SELECT ${STAMP}, json_build_object(${fact}) AS fact${more} FROM "${table}" t
       WHERE ${OF_AGREEMENTS} ORDER BY t.recorded_at, t.id`,
      agreementIds,
    );
  return {
    questions: await rowsOf(
      'retest',
      `'about', t.about, 'sample', t.sample_id, 'load', t.load_id, 'first', t.first::text,
       'firstVersion', t.first_version::text, 'claimed', t.claimed::text, 'reason', t.reason, 'rule', t.rule,
       'party', t.by_party_id`,
      `, (SELECT s.name FROM sample s WHERE s.agreement_id = t.agreement_id AND s.id = t.sample_id) AS sample,
         (SELECT l.ticket FROM current_load l WHERE l.agreement_id = t.agreement_id AND l.id = t.load_id) AS ticket`,
    ),
    figures: await rowsOf(
      'retest_figure',
      `'retest', t.retest_id, 'tester', t.tester, 'value', t.value::text, 'testedBy', t.tested_by, 'method', t.method,
       'part', t.part_id, 'testedOn', t.tested_on::text, 'weighing', CASE WHEN t.gross IS NOT NULL THEN json_build_object(
         'gross', t.gross::text, 'tare', t.tare::text, 'unit', t.unit, 'scale', t.scale_id,
         'scaleVersion', t.scale_version::text) END,
       'charge', t.charge::text, 'paidBy', t.paid_by, 'report', t.report, 'party', t.by_party_id`,
    ),
    figureAnswers: await rowsOf(
      'retest_figure_answer',
      `'figure', t.figure_id, 'answer', t.answer, 'reason', t.reason, 'party', t.by_party_id`,
    ),
    proposals: await rowsOf(
      'retest_proposal',
      `'retest', t.retest_id, 'ending', t.ending, 'value', t.value::text, 'bearer', t.bearer, 'reason', t.reason,
       'party', t.by_party_id`,
    ),
    proposalAnswers: await rowsOf(
      'retest_proposal_answer',
      `'proposal', t.proposal_id, 'answer', t.answer, 'reason', t.reason, 'party', t.by_party_id`,
    ),
    endings: await rowsOf(
      'retest_ending',
      `'retest', t.retest_id, 'ending', t.ending, 'because', t.because, 'value', t.value::text,
       'sellerBears', t.seller_bears::text, 'buyerBears', t.buyer_bears::text, 'changed', t.changed::text, 'documents', t.documents`,
    ),
  };
}

/** The agreement of a question, or of the question that a figure or proposal is about; undefined where there is none to see. */
export async function findRetestOf(
  tx: Transaction,
  table: 'retest' | 'retest_figure' | 'retest_proposal',
  id: string,
): Promise<{ readonly agreementId: string; readonly retestId: string } | undefined> {
  const of = table === 'retest' ? 'id' : 'retest_id';
  const [row] = await tx.$queryRawUnsafe<{ agreementId: string; retestId: string }[]>(
    `SELECT agreement_id AS "agreementId", ${of} AS "retestId" FROM "${table}" WHERE id = $1::uuid`,
    id,
  );
  return row;
}

export interface OpenRetests {
  readonly agreementId: string;
  /** Of whoever asked the oldest that is open. */
  readonly partyId: string;
  readonly personId: string;
}

/** Agreements in which something is questioned, of all parties; at the door. */
export async function readOpenRetests(tx: Transaction): Promise<readonly OpenRetests[]> {
  return await tx.$queryRawUnsafe<OpenRetests[]>(
    `SELECT agreement_id AS "agreementId", party_id AS "partyId", person_id AS "personId" FROM open_retests()`,
  );
}

interface New<Fact> {
  readonly id: string;
  readonly fact: Fact;
}

/** The columns that every table of these has, for rows that are recorded together. */
function stamped(rows: readonly New<unknown>[], { agreementId, recordedAt, recordedBy }: Recorded) {
  return {
    agreement_id: ['uuid', rows.map(() => agreementId)],
    id: ['uuid', rows.map(({ id }) => id)],
    recorded_at: ['timestamptz', rows.map(() => recordedAt)],
    recorded_by: ['uuid', rows.map(() => recordedBy)],
  } as const;
}

export async function insertRetests(
  tx: Transaction,
  rows: readonly New<RetestFact>[],
  recorded: Recorded,
): Promise<void> {
  await insertRows(tx, 'retest', {
    ...stamped(rows, recorded),
    about: ['text', rows.map(({ fact }) => fact.about)],
    sample_id: ['uuid', rows.map(({ fact }) => fact.sample)],
    load_id: ['uuid', rows.map(({ fact }) => fact.load)],
    first: ['numeric', rows.map(({ fact }) => fact.first)],
    first_version: ['int', rows.map(({ fact }) => fact.firstVersion)],
    claimed: ['numeric', rows.map(({ fact }) => fact.claimed)],
    reason: ['text', rows.map(({ fact }) => fact.reason)],
    rule: ['text', rows.map(({ fact }) => fact.rule)],
    by_party_id: ['uuid', rows.map(({ fact }) => fact.party)],
  });
}

export async function insertRetestFigure(
  tx: Transaction,
  row: New<RetestFigureFact>,
  recorded: Recorded,
): Promise<void> {
  const { retest, tester, value, testedBy, method, part, testedOn, weighing, charge, paidBy, report, party } =
    row.fact;
  await insertRows(tx, 'retest_figure', {
    ...stamped([row], recorded),
    retest_id: ['uuid', [retest]],
    tester: ['text', [tester]],
    value: ['numeric', [value]],
    tested_by: ['text', [testedBy]],
    method: ['text', [method]],
    part_id: ['uuid', [part]],
    tested_on: ['date', [testedOn]],
    gross: ['numeric', [weighing?.gross ?? null]],
    tare: ['numeric', [weighing?.tare ?? null]],
    unit: ['text', [weighing?.unit ?? null]],
    scale_id: ['uuid', [weighing?.scale ?? null]],
    scale_version: ['int', [weighing?.scaleVersion ?? null]],
    charge: ['numeric', [charge]],
    paid_by: ['text', [paidBy]],
    report: ['text', [report]],
    by_party_id: ['uuid', [party]],
  });
}

export async function insertRetestFigureAnswer(
  tx: Transaction,
  row: New<RetestFigureAnswerFact>,
  recorded: Recorded,
): Promise<void> {
  const { figure, answer, reason, party } = row.fact;
  await insertRows(tx, 'retest_figure_answer', {
    ...stamped([row], recorded),
    figure_id: ['uuid', [figure]],
    answer: ['text', [answer]],
    reason: ['text', [reason]],
    by_party_id: ['uuid', [party]],
  });
}

export async function insertRetestProposal(
  tx: Transaction,
  row: New<RetestProposalFact>,
  recorded: Recorded,
): Promise<void> {
  const { retest, ending, value, bearer, reason, party } = row.fact;
  await insertRows(tx, 'retest_proposal', {
    ...stamped([row], recorded),
    retest_id: ['uuid', [retest]],
    ending: ['text', [ending]],
    value: ['numeric', [value]],
    bearer: ['text', [bearer]],
    reason: ['text', [reason]],
    by_party_id: ['uuid', [party]],
  });
}

export async function insertRetestProposalAnswer(
  tx: Transaction,
  row: New<RetestProposalAnswerFact>,
  recorded: Recorded,
): Promise<void> {
  const { proposal, answer, reason, party } = row.fact;
  await insertRows(tx, 'retest_proposal_answer', {
    ...stamped([row], recorded),
    proposal_id: ['uuid', [proposal]],
    answer: ['text', [answer]],
    reason: ['text', [reason]],
    by_party_id: ['uuid', [party]],
  });
}

export async function insertRetestEnding(
  tx: Transaction,
  row: New<RetestEndingFact>,
  recorded: Recorded,
): Promise<void> {
  const { retest, ending, because, value, sellerBears, buyerBears, changed, documents } = row.fact;
  await insertRows(tx, 'retest_ending', {
    ...stamped([row], recorded),
    retest_id: ['uuid', [retest]],
    ending: ['text', [ending]],
    because: ['text', [because]],
    value: ['numeric', [value]],
    seller_bears: ['numeric', [sellerBears]],
    buyer_bears: ['numeric', [buyerBears]],
    changed: ['numeric', [changed]],
    documents: ['text', [documents]],
  });
}

/** Notes that both sides are reminded of a day; false where they were already. */
export async function insertReminder(
  tx: Transaction,
  {
    agreementId,
    retestId,
    dueOn,
    remindedAt,
  }: {
    readonly agreementId: string;
    readonly retestId: string;
    readonly dueOn: string;
    readonly remindedAt: string;
  },
): Promise<boolean> {
  const written = await tx.$executeRawUnsafe(
    `INSERT INTO retest_reminder (agreement_id, retest_id, due_on, reminded_at)
     VALUES ($1::uuid, $2::uuid, $3::date, $4::timestamptz) ON CONFLICT DO NOTHING`,
    agreementId,
    retestId,
    dueOn,
    remindedAt,
  );
  return written > 0;
}
