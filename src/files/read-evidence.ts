/**
 * The optional tables of a season: results, quotes, elections and choices. Every row is validated, used or not.
 */
import { join } from 'node:path';
import type { AgreementParts } from '../domain/agreement/check-agreement.ts';
import type { Tested } from '../domain/agreement/measures.ts';
import type { LocalDate } from '../domain/dates/local-date.ts';
import { electionWindows } from '../domain/prices/election-windows.ts';
import {
  longGaps,
  type PriceSeries,
  type Quote,
  sortQuotes,
  suspectJumps,
  tellJump,
} from '../domain/prices/price-series.ts';
import type { Choice } from '../domain/settlement/acceptance.ts';
import { prepareRemainderCheck } from '../domain/settlement/check-remainders.ts';
import type { Evidence } from '../domain/settlement/settle-load.ts';
import { readChoiceRow, readElectionRow, readQuoteRow } from '../domain/tables/other-rows.ts';
import { Row } from '../domain/tables/row.ts';
import { readSampleRow, reportedMeasures, warnOfDryMatter, warnOfSum } from '../domain/tables/sample-row.ts';
import {
  CHOICES,
  columnOf,
  ELECTIONS,
  PRICES,
  SAMPLES,
  type TableShape,
} from '../domain/tables/table-shape.ts';
import type { InputProblem } from './input-problem.ts';
import { readCsv } from './read-csv.ts';
import { ResultStore } from './result-store.ts';

export interface EvidenceSource {
  readonly folder: string;
  /** Names of the files in the folder. */
  readonly names: readonly string[];
  readonly parts: AgreementParts;
  readonly report: (problem: InputProblem) => void;
  readonly warn: (warning: InputProblem) => void;
}

/** A row that names a load, to be checked once the loads are known. */
export interface TicketedRow {
  readonly file: string;
  readonly line: number;
  readonly ticket: string;
}

/** Reads the four tables, reporting every fault; the rows that name a load are checked once the loads are known. */
export async function readEvidence(
  source: EvidenceSource,
): Promise<{ evidence: Evidence; ticketed: readonly TicketedRow[] }> {
  const ticketed: TicketedRow[] = [];
  const results = await readResults(source);
  const prices = await readPrices(source);
  const elections = await readElections(source, ticketed);
  const choices = await readChoices(source, ticketed);
  return { evidence: { results, prices, elections, choices }, ticketed };
}

/** The lines on which keys stand. */
type KnownLines = Pick<Map<string, number>, 'get' | 'set'>;

interface TableReading {
  readonly shape: TableShape;
  /** The columns whose texts, together, may stand once only. */
  readonly key: readonly string[];
  readonly known?: KnownLines;
  readonly take: (row: Row, place: { readonly line: number; readonly header: readonly string[] }) => void;
}

/** Reads a table that may be absent: row by row, reporting faults and repeated keys. */
async function readTable({ folder, names, report }: EvidenceSource, reading: TableReading): Promise<void> {
  const { shape, key, known = new Map<string, number>(), take } = reading;
  if (!names.includes(shape.file)) return;
  const table = await readCsv({ path: join(folder, shape.file), shape, report });
  for await (const batch of table?.batches ?? []) {
    for (const { line, cell } of batch) {
      const row = new Row(cell);
      const texts = key.map((column) => row.text(column));
      const whole = texts.includes('') ? undefined : keyOf(texts);
      const earlier = whole === undefined ? undefined : known.get(whole);
      take(row, { line, header: table?.header ?? [] });
      if (earlier !== undefined) {
        row.fault(
          key.join(' and '),
          `must not be repeated; ${texts.join(' of ')} stands on line ${earlier} already`,
        );
      } else if (whole !== undefined) {
        known.set(whole, line);
      }
      for (const problem of row.problems) report({ file: shape.file, line, ...problem });
    }
  }
}

/** One key for the texts of a row: a text alone is its own, several cannot run into one another. */
function keyOf(texts: readonly string[]): string {
  return texts.length === 1 ? (texts[0] ?? '') : JSON.stringify(texts);
}

async function readResults(source: EvidenceSource): Promise<ResultStore> {
  const results = new ResultStore();
  const faulty = new Map<string, number>();
  const negativeRemainders = prepareRemainderCheck(source.parts);
  let reported: readonly Tested[] | undefined;
  await readTable(source, {
    shape: SAMPLES,
    key: ['sample'],
    known: {
      get: (sample) => faulty.get(sample) ?? results.lineOf(sample),
      set: (sample, line) => (results.lineOf(sample) === undefined ? faulty.set(sample, line) : faulty),
    },
    take: (row, { line, header }) => {
      if (!reported) {
        reported = reportedMeasures(header);
        results.report(reported);
      }
      const result = readSampleRow(row, reported);
      if (!result) return;
      for (const message of negativeRemainders(result)) row.fault('sample', message);
      for (const message of [warnOfSum(result), warnOfDryMatter(result)]) {
        if (message !== undefined) source.warn({ file: SAMPLES.file, line, message });
      }
      results.add({
        line,
        sample: result.sample,
        basis: result.basis,
        dryMatter: row.text('dry_matter'),
        figures: reported.map((measure) => row.text(columnOf(measure))),
      });
    },
  });
  return results;
}

async function readPrices(source: EvidenceSource): Promise<ReadonlyMap<string, PriceSeries>> {
  const quotes = new Map<string, Quote[]>();
  await readTable(source, {
    shape: PRICES,
    key: ['series', 'date'],
    take: (row) => {
      const quote = readQuoteRow(row);
      if (!quote) return;
      const series = quotes.get(quote.series);
      if (series) series.push(quote);
      else quotes.set(quote.series, [quote]);
    },
  });
  const prices = new Map([...quotes].map(([name, series]) => [name, sortQuotes(series)]));
  warnOfGaps(prices, source);
  warnOfJumps(prices, source);
  warnOfUnquoted(prices, source);
  return prices;
}

function warnOfGaps(prices: ReadonlyMap<string, PriceSeries>, { warn }: EvidenceSource): void {
  for (const [name, series] of prices) {
    for (const { from, to, days } of longGaps(series)) {
      warn({
        file: PRICES.file,
        message: `${name} has no quote for ${days} days, from ${from} to ${to}; is a date mistyped?`,
      });
    }
  }
}

function warnOfJumps(prices: ReadonlyMap<string, PriceSeries>, { warn }: EvidenceSource): void {
  for (const [name, series] of prices) {
    for (const jump of suspectJumps(series)) warn({ file: PRICES.file, message: tellJump(name, jump) });
  }
}

function warnOfUnquoted(prices: ReadonlyMap<string, PriceSeries>, { parts, warn }: EvidenceSource): void {
  for (const [name, { series, rule }] of Object.entries(parts.references)) {
    if (rule.kind === 'fixed' || series === undefined || prices.has(series)) continue;
    warn({
      file: PRICES.file,
      message: `no quote names the series ${series}, which the reference ${name} follows`,
    });
  }
}

async function readElections(source: EvidenceSource, ticketed: TicketedRow[]) {
  const elections = new Map<string, Map<string, LocalDate>>();
  const windowsOf = electionWindows(source.parts);
  const unused = new Map<string, number>();
  await readTable(source, {
    shape: ELECTIONS,
    key: ['ticket', 'series'],
    take: (row, { line }) => {
      const election = readElectionRow(row, windowsOf);
      if (row.text('ticket') !== '')
        ticketed.push({ file: ELECTIONS.file, line, ticket: row.text('ticket') });
      if (!election) return;
      if (windowsOf(election.series).length === 0 && !unused.has(election.series)) {
        unused.set(election.series, line);
      }
      const ofTicket = elections.get(election.ticket) ?? new Map<string, LocalDate>();
      elections.set(election.ticket, ofTicket.set(election.series, election.date));
    },
  });
  for (const [series, line] of unused) {
    source.warn({ file: ELECTIONS.file, line, message: tellUnusedElection(series, source.parts) });
  }
  return elections;
}

function tellUnusedElection(series: string, { references }: AgreementParts): string {
  const elected = Object.values(references).flatMap(({ series: followed, rule }) =>
    rule.kind === 'seller-elects' && followed !== undefined ? [followed] : [],
  );
  const which =
    elected.length === 0
      ? 'no reference of the agreement lets the seller elect'
      : `the seller elects for ${[...new Set(elected)].join(', ')}`;
  return `${series} is elected for but not used; ${which}`;
}

async function readChoices(source: EvidenceSource, ticketed: TicketedRow[]) {
  const choices = new Map<string, Choice>();
  await readTable(source, {
    shape: CHOICES,
    key: ['ticket'],
    take: (row, { line }) => {
      const read = readChoiceRow(row);
      if (row.text('ticket') !== '') ticketed.push({ file: CHOICES.file, line, ticket: row.text('ticket') });
      if (read) choices.set(read.ticket, read.choice);
    },
  });
  return choices;
}
