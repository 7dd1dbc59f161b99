/**
 * Price series with their quotes, the dates that sellers elected, and what buyers chose.
 */
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

export interface QuoteRow {
  readonly id: string;
  readonly seriesId: string;
  readonly series: string;
  readonly date: string;
  readonly price: string;
  /** 1, and one more with each correction. */
  readonly version: number;
  /** Why it corrects the one before; null for the first. */
  readonly reason: string | null;
}

/** Every version of every quote of an agreement, oldest first within a series. */
export async function readQuoteVersions(tx: Transaction, agreementId: string): Promise<readonly QuoteRow[]> {
  return await tx.$queryRawUnsafe<QuoteRow[]>(
    `SELECT q.id, q.series_id AS "seriesId", s.name AS series, q.quoted_on::text AS date, q.price::text,
       q.version, q.reason
     FROM quote q JOIN series s ON s.agreement_id = q.agreement_id AND s.id = q.series_id
     WHERE q.agreement_id = $1::uuid ORDER BY s.name, q.quoted_on, q.version`,
    agreementId,
  );
}

/** All quotes of an agreement as they stand now, oldest first within a series. */
export async function readQuotes(tx: Transaction, agreementId: string): Promise<readonly QuoteRow[]> {
  return newestQuotes(await readQuoteVersions(tx, agreementId));
}

/** Of the versions of each quote, in order, the last. */
export function newestQuotes(versions: readonly QuoteRow[]): readonly QuoteRow[] {
  return versions.filter((quote, index) => {
    const next = versions[index + 1];
    return !next || next.series !== quote.series || next.date !== quote.date;
  });
}

/** Ids of an agreement's series, by name. */
export async function readSeriesIds(
  tx: Transaction,
  agreementId: string,
): Promise<ReadonlyMap<string, string>> {
  const rows = await tx.$queryRawUnsafe<{ name: string; id: string }[]>(
    'SELECT name, id FROM series WHERE agreement_id = $1::uuid',
    agreementId,
  );
  return new Map(rows.map(({ name, id }) => [name, id]));
}

/** Writes series that are new. */
export async function insertSeries(
  tx: Transaction,
  agreementId: string,
  series: readonly { readonly id: string; readonly name: string }[],
): Promise<void> {
  await insertRows(tx, 'series', {
    agreement_id: ['uuid', series.map(() => agreementId)],
    id: ['uuid', series.map(({ id }) => id)],
    name: ['text', series.map(({ name }) => name)],
  });
}

/** Writes quotes. */
export async function insertQuotes(
  tx: Transaction,
  quotes: readonly QuoteRow[],
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'quote', {
    agreement_id: ['uuid', quotes.map(() => agreementId)],
    id: ['uuid', quotes.map(({ id }) => id)],
    series_id: ['uuid', quotes.map(({ seriesId }) => seriesId)],
    quoted_on: ['date', quotes.map(({ date }) => date)],
    price: ['numeric', quotes.map(({ price }) => price)],
    version: ['int', quotes.map(({ version }) => version)],
    reason: ['text', quotes.map(({ reason }) => reason)],
    recorded_at: ['timestamptz', quotes.map(() => recordedAt)],
    recorded_by: ['uuid', quotes.map(() => recordedBy)],
  });
}

export interface LatestQuote {
  readonly agreementId: string;
  readonly series: string;
  readonly date: string;
  readonly price: string;
}

/** The newest quote of each series of these names, under each agreement that the transaction may see. */
export async function readLatestQuotes(
  tx: Transaction,
  names: readonly string[],
): Promise<readonly LatestQuote[]> {
  return await tx.$queryRawUnsafe<LatestQuote[]>(
    `SELECT DISTINCT ON (s.agreement_id, s.name) s.agreement_id AS "agreementId", s.name AS series,
       q.quoted_on::text AS date, q.price::text
     FROM series s JOIN quote q ON q.agreement_id = s.agreement_id AND q.series_id = s.id
     WHERE s.name = ANY($1::text[]) ORDER BY s.agreement_id, s.name, q.quoted_on DESC`,
    names,
  );
}

export interface ElectionRow {
  readonly id: string;
  readonly loadId: string;
  readonly ticket: string;
  readonly seriesId: string;
  readonly series: string;
  readonly date: string;
}

/** Elections of some loads of an agreement. */
export async function readElections(
  tx: Transaction,
  agreementId: string,
  loadIds: readonly string[],
): Promise<readonly ElectionRow[]> {
  return await tx.$queryRawUnsafe<ElectionRow[]>(
    `SELECT e.id, e.load_id AS "loadId", l.ticket, e.series_id AS "seriesId", s.name AS series, e.elected_on::text AS date
     FROM election e
     JOIN current_load l ON l.agreement_id = e.agreement_id AND l.id = e.load_id
     JOIN series s ON s.agreement_id = e.agreement_id AND s.id = e.series_id
     WHERE e.agreement_id = $1::uuid AND e.load_id = ANY($2::uuid[]) ORDER BY e.id`,
    agreementId,
    loadIds,
  );
}

/** Writes elections. */
export async function insertElections(
  tx: Transaction,
  elections: readonly ElectionRow[],
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'election', {
    agreement_id: ['uuid', elections.map(() => agreementId)],
    id: ['uuid', elections.map(({ id }) => id)],
    load_id: ['uuid', elections.map(({ loadId }) => loadId)],
    series_id: ['uuid', elections.map(({ seriesId }) => seriesId)],
    elected_on: ['date', elections.map(({ date }) => date)],
    recorded_at: ['timestamptz', elections.map(() => recordedAt)],
    recorded_by: ['uuid', elections.map(() => recordedBy)],
  });
}

export interface ChoiceRow {
  readonly id: string;
  readonly loadId: string;
  readonly ticket: string;
  readonly choice: string;
  /** Where a load that was refused went. */
  readonly wentTo: string | null;
}

/** All choices about some loads of an agreement, in the order in which the journal has them: the last of a load counts. */
export async function readChoices(
  tx: Transaction,
  agreementId: string,
  loadIds: readonly string[],
): Promise<readonly ChoiceRow[]> {
  return await tx.$queryRawUnsafe<ChoiceRow[]>(
    `SELECT c.id, c.load_id AS "loadId", l.ticket, c.choice, c.went_to AS "wentTo" FROM choice c
     JOIN current_load l ON l.agreement_id = c.agreement_id AND l.id = c.load_id
     LEFT JOIN journal_entry e ON e.agreement_id = c.agreement_id AND e.subject_id = c.id
     WHERE c.agreement_id = $1::uuid AND c.load_id = ANY($2::uuid[]) ORDER BY e.sequence NULLS FIRST, c.id`,
    agreementId,
    loadIds,
  );
}

/** Writes choices. */
export async function insertChoices(
  tx: Transaction,
  choices: readonly ChoiceRow[],
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'choice', {
    agreement_id: ['uuid', choices.map(() => agreementId)],
    id: ['uuid', choices.map(({ id }) => id)],
    load_id: ['uuid', choices.map(({ loadId }) => loadId)],
    choice: ['text', choices.map(({ choice }) => choice)],
    went_to: ['text', choices.map(({ wentTo }) => wentTo)],
    recorded_at: ['timestamptz', choices.map(() => recordedAt)],
    recorded_by: ['uuid', choices.map(() => recordedBy)],
  });
}
