/**
 * What was settled about price series, and what rests on their quotes.
 */
import type { Enterer } from '../../domain/prices/series-terms.ts';
import type { Transaction } from '../open-store.ts';
import { insertRows } from './insert-rows.ts';
import type { Recorded } from './result-rows.ts';

export interface SeriesTermsRow {
  readonly id: string;
  readonly seriesId: string;
  readonly series: string;
  readonly source: string;
  readonly enteredBy: Enterer;
  readonly contestDays: number;
  /** ISO 8601, UTC. */
  readonly recordedAt: string;
}

/** Everything that was settled about an agreement's series, in the order of the journal: the last of a series counts. */
export async function readSeriesTerms(
  tx: Transaction,
  agreementId: string,
): Promise<readonly SeriesTermsRow[]> {
  return await tx.$queryRawUnsafe<SeriesTermsRow[]>(
    `SELECT t.id, t.series_id AS "seriesId", s.name AS series, t.source, t.entered_by AS "enteredBy",
       t.contest_days AS "contestDays",
       to_char(t.recorded_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "recordedAt"
     FROM series_terms t JOIN series s ON s.agreement_id = t.agreement_id AND s.id = t.series_id
     LEFT JOIN journal_entry e ON e.agreement_id = t.agreement_id AND e.subject_id = t.id
     WHERE t.agreement_id = $1::uuid ORDER BY e.sequence NULLS FIRST, t.id`,
    agreementId,
  );
}

/** Writes what was settled about one series. */
export async function insertSeriesTerms(
  tx: Transaction,
  terms: Omit<SeriesTermsRow, 'series' | 'recordedAt'>,
  { agreementId, recordedAt, recordedBy }: Recorded,
): Promise<void> {
  await insertRows(tx, 'series_terms', {
    agreement_id: ['uuid', [agreementId]],
    id: ['uuid', [terms.id]],
    series_id: ['uuid', [terms.seriesId]],
    source: ['text', [terms.source]],
    entered_by: ['text', [terms.enteredBy]],
    contest_days: ['int', [terms.contestDays]],
    recorded_at: ['timestamptz', [recordedAt]],
    recorded_by: ['uuid', [recordedBy]],
  });
}

/** When the versions of a series' quotes were entered, by the version's id; milliseconds since 1970. */
export async function readQuoteTimes(
  tx: Transaction,
  agreementId: string,
  seriesId: string,
): Promise<ReadonlyMap<string, number>> {
  const rows = await tx.$queryRawUnsafe<{ id: string; at: number }[]>(
    `SELECT id, (extract(epoch FROM recorded_at) * 1000)::float8 AS at FROM quote
     WHERE agreement_id = $1::uuid AND series_id = $2::uuid`,
    agreementId,
    seriesId,
  );
  return new Map(rows.map(({ id, at }) => [id, at]));
}

/** Ids of the loads whose settlement, as it stands, rests on a quote of a series. */
export async function readSettledBySeries(
  tx: Transaction,
  agreementId: string,
  seriesId: string,
): Promise<readonly string[]> {
  const rows = await tx.$queryRawUnsafe<{ loadId: string }[]>(
    `SELECT DISTINCT t.load_id AS "loadId"
     FROM quote q
     JOIN settlement_quote u ON u.agreement_id = q.agreement_id AND u.quote_id = q.id
     JOIN settlement t ON t.agreement_id = u.agreement_id AND t.id = u.settlement_id
     WHERE q.agreement_id = $1::uuid AND q.series_id = $2::uuid
       AND NOT EXISTS (SELECT FROM settlement n
         WHERE n.agreement_id = t.agreement_id AND n.load_id = t.load_id AND n.version > t.version)`,
    agreementId,
    seriesId,
  );
  return rows.map(({ loadId }) => loadId);
}
