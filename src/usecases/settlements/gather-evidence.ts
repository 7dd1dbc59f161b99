/**
 * All that some loads of an agreement are settled from, read in a few statements.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import { type PriceSeries, type Quote, sortQuotes } from '../../domain/prices/price-series.ts';
import type { LabResult } from '../../domain/samples/lab-result.ts';
import { sampleOf } from '../../domain/samples/sampling-plan.ts';
import type { Choice } from '../../domain/settlement/acceptance.ts';
import type { Allowance } from '../../domain/settlement/allowance.ts';
import type { Evidence } from '../../domain/settlement/settle-load.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type AllowanceRow, readAllowances } from '../../store/rows/allowance-rows.ts';
import type { LoadRow } from '../../store/rows/load-rows.ts';
import {
  type ChoiceRow,
  type ElectionRow,
  newestQuotes,
  type QuoteRow,
  readChoices,
  readElections,
  readQuoteVersions,
} from '../../store/rows/quote-rows.ts';
import { readResultAnswers } from '../../store/rows/result-answer-rows.ts';
import { type ResultRow, readResultVersions } from '../../store/rows/result-rows.ts';
import type { AgreedTerms } from '../agreements/find-agreement.ts';
import { groupRows } from '../group-rows.ts';
import { deliveredLoad } from '../loads/load-fact.ts';
import { labResult } from '../results/result-fact.ts';
import { unusableResults } from '../results/unusable-results.ts';

export interface GatheredEvidence {
  readonly evidence: Evidence;
  /** The rows behind it, as they stand now: results by sample. */
  readonly results: ReadonlyMap<string, ResultRow>;
  /** By series, oldest first. */
  readonly quotes: ReadonlyMap<string, readonly QuoteRow[]>;
  /** Every version of them, by id, for what was settled from an earlier one. */
  readonly everyResult: ReadonlyMap<string, ResultRow>;
  readonly everyQuote: ReadonlyMap<string, QuoteRow>;
  readonly elections: readonly ElectionRow[];
  /** The last of a load counts. */
  readonly choices: readonly ChoiceRow[];
  /** Agreed by both sides; at most one a load. */
  readonly allowances: readonly AllowanceRow[];
}

export async function gatherEvidence(
  tx: Transaction,
  terms: AgreedTerms,
  loads: readonly LoadRow[],
): Promise<GatheredEvidence> {
  const { row, agreement } = terms;
  const ids = loads.map(({ id }) => id);
  const samples = new Set(loads.flatMap((load) => sampleOf(deliveredLoad(load), agreement) ?? []));
  const resultVersions = await readResultVersions(tx, row.id, [...samples]);
  const results = new Map(resultVersions.map((result) => [result.sample, result]));
  const quoteVersions = await readQuoteVersions(tx, row.id);
  const quotes = groupRows(newestQuotes(quoteVersions), ({ series }) => series);
  const elections = await readElections(tx, row.id, ids);
  const choices = await readChoices(tx, row.id, ids);
  const allowances = await readAllowances(tx, row.id, ids);
  const answers = resultVersions.length === 0 ? [] : await readResultAnswers(tx, row.id);
  const unusable = unusableResults({ terms, versions: resultVersions, answers });
  const evidence = evidenceOf({
    results: resultsOf(results),
    quotes,
    elections,
    choices,
    record: {
      unusable: (sample) => unusable.get(sample),
      isHeldToLevels: (sample) => isHeldToLevels(results.get(sample)),
      allowances: allowancesByTicket(allowances),
    },
  });
  return {
    evidence,
    results,
    quotes,
    elections,
    choices,
    allowances,
    everyResult: new Map(resultVersions.map((result) => [result.id, result])),
    everyQuote: new Map(quoteVersions.map((quote) => [quote.id, quote])),
  };
}

/** Rows as the settlement reads them. */
export function evidenceOf(rows: {
  readonly results: Evidence['results'];
  readonly quotes: GatheredEvidence['quotes'];
  readonly elections: readonly ElectionRow[];
  readonly choices: readonly ChoiceRow[];
  readonly record: NonNullable<Evidence['record']>;
}): Evidence {
  const elections = groupRows(rows.elections, ({ ticket }) => ticket);
  return {
    results: rows.results,
    prices: new Map([...rows.quotes].map(([series, quotes]) => [series, priceSeries(quotes)])),
    elections: new Map(
      [...elections].map(([ticket, dates]) => [
        ticket,
        new Map(dates.map(({ series, date }) => [series, date as LocalDate])),
      ]),
    ),
    choices: new Map(rows.choices.map(({ ticket, choice }) => [ticket, choice as Choice])),
    record: rows.record,
  };
}

/** Results from before it was asked who entered them were settled without published levels, and stay so. */
export function isHeldToLevels(result: ResultRow | undefined): boolean {
  return result !== undefined && result.enteredBy !== null;
}

export function allowancesByTicket(rows: readonly AllowanceRow[]): ReadonlyMap<string, Allowance> {
  return new Map(rows.map(({ ticket, document }) => [ticket, JSON.parse(document) as Allowance]));
}

/** Rows of one series as the domain reads it. */
export function priceSeries(rows: readonly QuoteRow[]): PriceSeries {
  return sortQuotes(
    rows.map(({ date, price }): Quote => ({ date: date as LocalDate, price: decimal(price) })),
  );
}

/** A composite serves many loads: each result is read once. */
function resultsOf(rows: ReadonlyMap<string, ResultRow>): Evidence['results'] {
  const read = new Map<string, LabResult>();
  return {
    get: (sample) => {
      const row = rows.get(sample);
      if (!row) return undefined;
      const known = read.get(sample) ?? labResult(row);
      read.set(sample, known);
      return known;
    },
  };
}
