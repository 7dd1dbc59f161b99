/**
 * All that some loads of an agreement are settled from, read in a few statements.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import { type PriceSeries, type Quote, sortQuotes } from '../../domain/prices/price-series.ts';
import type { LabResult } from '../../domain/samples/lab-result.ts';
import { sampleOf } from '../../domain/samples/sampling-plan.ts';
import type { Choice } from '../../domain/settlement/acceptance.ts';
import type { Evidence } from '../../domain/settlement/settle-load.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { LoadRow } from '../../store/rows/load-rows.ts';
import { type QuoteRow, readChoices, readElections, readQuotes } from '../../store/rows/quote-rows.ts';
import { type ResultRow, readResults } from '../../store/rows/result-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import { deliveredLoad } from '../loads/load-fact.ts';
import { labResult } from '../results/result-fact.ts';

export interface GatheredEvidence {
  readonly evidence: Evidence;
  /** The rows behind it, by sample. */
  readonly results: ReadonlyMap<string, ResultRow>;
  /** By series, oldest first. */
  readonly quotes: ReadonlyMap<string, readonly QuoteRow[]>;
}

export async function gatherEvidence(
  tx: Transaction,
  { row, agreement }: FoundAgreement,
  loads: readonly LoadRow[],
): Promise<GatheredEvidence> {
  const ids = loads.map(({ id }) => id);
  const samples = new Set(loads.flatMap((load) => sampleOf(deliveredLoad(load), agreement) ?? []));
  const results = await readResults(tx, row.id, [...samples]);
  const quotes = bySeries(await readQuotes(tx, row.id));
  const elections = new Map<string, Map<string, LocalDate>>();
  for (const { ticket, series, date } of await readElections(tx, row.id, ids)) {
    const ofTicket = elections.get(ticket) ?? new Map<string, LocalDate>();
    elections.set(ticket, ofTicket.set(series, date as LocalDate));
  }
  const choices = (await readChoices(tx, row.id, ids)).map(
    ({ ticket, choice }) => [ticket, choice as Choice] as const,
  );
  const evidence: Evidence = {
    results: resultsOf(results),
    prices: new Map([...quotes].map(([series, rows]) => [series, priceSeries(rows)])),
    elections,
    choices: new Map(choices),
  };
  return { evidence, results, quotes };
}

function bySeries(quotes: readonly QuoteRow[]): ReadonlyMap<string, readonly QuoteRow[]> {
  const found = new Map<string, QuoteRow[]>();
  for (const quote of quotes) {
    const series = found.get(quote.series);
    if (series) series.push(quote);
    else found.set(quote.series, [quote]);
  }
  return found;
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
