/**
 * Everything of an agreement as it stands, for whoever checks it. Read with the rights of the tables' owner.
 */
import type { Transaction } from '../open-store.ts';
import { type AgreementRow, readAgreement } from './agreement-rows.ts';
import { type AllowanceProposalRow, readAllowanceProposals } from './allowance-rows.ts';
import { type CorrectionRow, readCorrections } from './correction-rows.ts';
import { type LoadRow, type LoadVersionRow, readFirstLoads, readLoadVersions } from './load-rows.ts';
import { type MoneyRows, readMoneyRows } from './money/all-money-rows.ts';
import {
  type ChoiceRow,
  type ElectionRow,
  type QuoteRow,
  readChoices,
  readElections,
  readQuoteVersions,
} from './quote-rows.ts';
import { type ResultAnswerRow, readResultAnswers } from './result-answer-rows.ts';
import { type ResultRow, readResultVersions } from './result-rows.ts';
import { type RetestRows, readRetestRows } from './retest-rows.ts';
import {
  type HandoverRow,
  type PartRow,
  readHandovers,
  readParts,
  readTakings,
  type TakingRow,
} from './sample-rows.ts';
import { readSeasonNotes, type SeasonNoteRows } from './season-note-rows.ts';
import { readSeriesTerms, type SeriesTermsRow } from './series-rows.ts';
import { readSettlements, type SettlementRow } from './settlement-rows.ts';
import { type ClosingRow, readClosing, readSignings, type SigningRow } from './signing-rows.ts';
import { readSeries, readSpentTickets, type SeriesRow, type SpentTicketRow } from './ticket-rows.ts';
import { readWeighings, type WeighingRow } from './weighing-rows.ts';

/** Ids of all agreements, in order. */
export async function readAgreementIds(tx: Transaction): Promise<readonly string[]> {
  const rows = await tx.$queryRawUnsafe<{ id: string }[]>('SELECT id FROM agreement ORDER BY id');
  return rows.map(({ id }) => id);
}

export interface VersionRow {
  readonly id: string;
  readonly version: number;
  readonly document: string;
  readonly fingerprint: string;
}

export interface StandingRows {
  readonly agreement: AgreementRow;
  readonly versions: readonly VersionRow[];
  /** As first recorded. */
  readonly loads: readonly LoadRow[];
  readonly loadVersions: readonly LoadVersionRow[];
  readonly results: readonly ResultRow[];
  readonly quotes: readonly QuoteRow[];
  readonly elections: readonly ElectionRow[];
  readonly choices: readonly ChoiceRow[];
  readonly settlements: readonly SettlementRow[];
  readonly signings: readonly SigningRow[];
  readonly closing: ClosingRow | undefined;
  readonly corrections: readonly CorrectionRow[];
  readonly allowances: readonly AllowanceProposalRow[];
  readonly takings: readonly TakingRow[];
  readonly parts: readonly PartRow[];
  readonly handovers: readonly HandoverRow[];
  readonly resultAnswers: readonly ResultAnswerRow[];
  readonly weighings: readonly WeighingRow[];
  readonly series: readonly SeriesRow[];
  readonly spentTickets: readonly SpentTicketRow[];
  readonly seriesTerms: readonly SeriesTermsRow[];
  readonly money: MoneyRows;
  readonly retests: RetestRows;
  readonly seasonNotes: SeasonNoteRows;
}

/** All rows of an agreement; undefined where it has no version or a party of it is gone. */
export async function readStandingRows(tx: Transaction, id: string): Promise<StandingRows | undefined> {
  const agreement = await readAgreement(tx, id);
  if (!agreement) return undefined;
  const versions = await tx.$queryRawUnsafe<VersionRow[]>(
    'SELECT id, version, document, fingerprint FROM agreement_version WHERE agreement_id = $1::uuid ORDER BY version',
    id,
  );
  const loadIds = await idsOf(tx, 'load', id);
  const samples = await tx.$queryRawUnsafe<{ name: string }[]>(
    'SELECT name FROM sample WHERE agreement_id = $1::uuid',
    id,
  );
  const results = await readResultVersions(
    tx,
    id,
    samples.map(({ name }) => name),
  );
  return {
    agreement,
    versions,
    loads: await readFirstLoads(tx, id, loadIds),
    loadVersions: await readLoadVersions(tx, id, loadIds),
    results,
    quotes: await readQuoteVersions(tx, id),
    elections: await readElections(tx, id, loadIds),
    choices: await readChoices(tx, id, loadIds),
    settlements: await readSettlements(tx, id, loadIds),
    signings: await readSignings(tx, id),
    closing: await readClosing(tx, id),
    corrections: await readCorrections(tx, id),
    allowances: await readAllowanceProposals(tx, id),
    takings: await readTakings(tx, id),
    parts: await readParts(tx, id),
    handovers: await readHandovers(tx, id),
    resultAnswers: await readResultAnswers(tx, id),
    weighings: await readWeighings(tx, id),
    series: await readSeries(tx, id),
    spentTickets: await readSpentTickets(tx, id),
    seriesTerms: await readSeriesTerms(tx, id),
    money: await readMoneyRows(tx, [id]),
    retests: await readRetestRows(tx, [id]),
    seasonNotes: await readSeasonNotes(tx, [id]),
  };
}

async function idsOf(tx: Transaction, table: string, agreementId: string): Promise<readonly string[]> {
  const rows = await tx.$queryRawUnsafe<{ id: string }[]>(
    `SELECT id FROM "${table}" WHERE agreement_id = $1::uuid`,
    agreementId,
  );
  return rows.map(({ id }) => id);
}

export interface EntryRow {
  readonly sequence: number;
  readonly kind: string;
  readonly subjectId: string;
  readonly document: string;
  readonly previous: string;
  readonly fingerprint: string;
  /** ISO 8601, UTC, with milliseconds. */
  readonly postedAt: string;
  readonly postedBy: string;
  readonly postings: readonly { readonly account: string; readonly unit: string; readonly amount: string }[];
}

/** The entries of an agreement's journal after one of them, in order, at most `count`. */
export async function readEntries(
  tx: Transaction,
  agreementId: string,
  { after, count }: { readonly after: number; readonly count: number },
): Promise<readonly EntryRow[]> {
  return await tx.$queryRawUnsafe<EntryRow[]>(
    `SELECT sequence, kind, subject_id AS "subjectId", document, previous, fingerprint,
       to_char(posted_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "postedAt", posted_by AS "postedBy",
       coalesce((
         SELECT json_agg(json_build_object('account', account, 'unit', unit, 'amount', amount::text) ORDER BY place)
         FROM posting p WHERE p.agreement_id = e.agreement_id AND p.sequence = e.sequence), '[]') AS postings
     FROM journal_entry e WHERE agreement_id = $1::uuid AND sequence > $2 ORDER BY sequence LIMIT $3`,
    agreementId,
    after,
    count,
  );
}

export interface OddRow {
  readonly table: string;
  readonly id: string;
}

/** Tables whose rows each have one entry in the journal, and the columns that say when and by whom. */
const ENTERED: readonly (readonly [table: string, at: string, by: string])[] = [
  ['agreement_version', 'recorded_at', 'recorded_by'],
  ['quote', 'recorded_at', 'recorded_by'],
  ['load', 'recorded_at', 'recorded_by'],
  ['load_version', 'recorded_at', 'recorded_by'],
  ['result', 'recorded_at', 'recorded_by'],
  ['result_answer', 'recorded_at', 'recorded_by'],
  ['sample_taking', 'recorded_at', 'recorded_by'],
  ['sample_part', 'recorded_at', 'recorded_by'],
  ['part_handover', 'recorded_at', 'recorded_by'],
  ['election', 'recorded_at', 'recorded_by'],
  ['choice', 'recorded_at', 'recorded_by'],
  ['settlement', 'settled_at', 'settled_by'],
  ['correction', 'recorded_at', 'recorded_by'],
  ['correction_answer', 'recorded_at', 'recorded_by'],
  ['open_weighing', 'recorded_at', 'recorded_by'],
  ['ticket_series', 'recorded_at', 'recorded_by'],
  ['spent_ticket', 'recorded_at', 'recorded_by'],
  ['series_terms', 'recorded_at', 'recorded_by'],
  ['signing', 'recorded_at', 'recorded_by'],
  ['agreement_closing', 'recorded_at', 'recorded_by'],
  ['money_document', 'recorded_at', 'recorded_by'],
  ['payment', 'recorded_at', 'recorded_by'],
  ['payment_answer', 'recorded_at', 'recorded_by'],
  ['payment_reversal', 'recorded_at', 'recorded_by'],
  ['hold', 'recorded_at', 'recorded_by'],
  ['hold_end', 'recorded_at', 'recorded_by'],
  ['set_off', 'recorded_at', 'recorded_by'],
  ['set_off_answer', 'recorded_at', 'recorded_by'],
  ['lien_notice', 'recorded_at', 'recorded_by'],
  ['lien_end', 'recorded_at', 'recorded_by'],
  ['retest', 'recorded_at', 'recorded_by'],
  ['retest_figure', 'recorded_at', 'recorded_by'],
  ['retest_figure_answer', 'recorded_at', 'recorded_by'],
  ['retest_proposal', 'recorded_at', 'recorded_by'],
  ['retest_proposal_answer', 'recorded_at', 'recorded_by'],
  ['retest_ending', 'recorded_at', 'recorded_by'],
  ['season_note', 'recorded_at', 'recorded_by'],
  ['season_note_answer', 'recorded_at', 'recorded_by'],
];

/** Rows whose entry is missing, or says another moment or person. */
export async function readUnenteredRows(tx: Transaction, agreementId: string): Promise<readonly OddRow[]> {
  const parts = ENTERED.map(
    ([table, at, by]) =>
      `SELECT '${table}' AS "table", r.id::text FROM "${table}" r
       LEFT JOIN journal_entry e ON e.agreement_id = r.agreement_id AND e.subject_id = r.id
       WHERE r.agreement_id = $1::uuid AND (e.sequence IS NULL OR e.posted_at <> r.${at} OR e.posted_by <> r.${by})`,
  );
  // An allocation is remembered with what it comes from; one that comes from nothing would be met nowhere.
  parts.push(`SELECT 'allocation' AS "table", a.source_id::text AS id FROM allocation a
     LEFT JOIN journal_entry e ON e.agreement_id = a.agreement_id AND e.subject_id = a.source_id
     WHERE a.agreement_id = $1::uuid AND e.sequence IS NULL`);
  return await tx.$queryRawUnsafe<OddRow[]>(parts.join(' UNION ALL '), agreementId);
}

/** Lines, postings and parts that are not counted from 0 without a gap: one was moved, or is gone. */
export async function readMiscounted(tx: Transaction, agreementId: string): Promise<readonly OddRow[]> {
  const parts = [
    ['settlement_line', 'settlement_id'],
    ['posting', 'sequence'],
    ['document_load', 'document_id'],
    ['allocation', 'source_id'],
  ].map(
    ([table, of]) =>
      `SELECT '${table}' AS "table", ${of}::text AS id FROM "${table}" WHERE agreement_id = $1::uuid
       GROUP BY ${of} HAVING min(place) <> 0 OR max(place) <> count(*) - 1`,
  );
  return await tx.$queryRawUnsafe<OddRow[]>(parts.join(' UNION ALL '), agreementId);
}

export interface OddBalance {
  readonly account: string;
  readonly unit: string;
  /** What is kept, and what the postings sum to; null where there is none. */
  readonly balance: string | null;
  readonly posted: string | null;
}

/** Accounts whose kept balance is not the sum of their postings. */
export async function readOddBalances(tx: Transaction, agreementId: string): Promise<readonly OddBalance[]> {
  return await tx.$queryRawUnsafe<OddBalance[]>(
    `SELECT account, unit, b.balance::text, p.posted::text
     FROM (SELECT account, unit, balance, postings FROM account_balance WHERE agreement_id = $1::uuid) b
     FULL JOIN (
       SELECT account, unit, sum(amount) AS posted, count(*) AS postings
       FROM posting WHERE agreement_id = $1::uuid GROUP BY account, unit) p USING (account, unit)
     WHERE b.balance IS DISTINCT FROM p.posted OR b.postings IS DISTINCT FROM p.postings ORDER BY account, unit`,
    agreementId,
  );
}
