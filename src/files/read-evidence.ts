/**
 * The optional tables of a season: results, quotes, elections and choices. Every row is validated, used or not.
 */
import { join } from 'node:path';
import type { AgreementParts } from '../domain/agreement/check-agreement.ts';
import type { LocalDate } from '../domain/dates/local-date.ts';
import { longGaps, type PriceSeries, type Quote, sortQuotes } from '../domain/prices/price-series.ts';
import type { LabResult } from '../domain/samples/lab-result.ts';
import type { Choice } from '../domain/settlement/acceptance.ts';
import { prepareRemainderCheck } from '../domain/settlement/check-remainders.ts';
import type { Evidence } from '../domain/settlement/settle-load.ts';
import {
  type ElectionWindow,
  readChoiceRow,
  readElectionRow,
  readQuoteRow,
} from '../domain/tables/other-rows.ts';
import { Row } from '../domain/tables/row.ts';
import { readSampleRow, reportedMeasures, warnOfSum } from '../domain/tables/sample-row.ts';
import { CHOICES, ELECTIONS, PRICES, SAMPLES, type TableShape } from '../domain/tables/table-shape.ts';
import type { InputProblem } from './input-problem.ts';
import { readCsv } from './read-csv.ts';

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

interface TableReading {
  readonly shape: TableShape;
  /** The columns whose texts, together, may stand once only. */
  readonly key: readonly string[];
  readonly take: (row: Row, place: { readonly line: number; readonly header: readonly string[] }) => void;
}

/** Reads a table that may be absent: row by row, reporting faults and repeated keys. */
async function readTable({ folder, names, report }: EvidenceSource, reading: TableReading): Promise<void> {
  const { shape, key, take } = reading;
  if (!names.includes(shape.file)) return;
  const table = await readCsv(join(folder, shape.file), shape, report);
  const lines = new Map<string, number>();
  for await (const { line, cell } of table?.rows ?? []) {
    const row = new Row(cell);
    take(row, { line, header: table?.header ?? [] });
    checkRepeated(row, { key, line, lines });
    for (const problem of row.problems) report({ file: shape.file, line, ...problem });
  }
}

function checkRepeated(
  row: Row,
  {
    key,
    line,
    lines,
  }: { readonly key: readonly string[]; readonly line: number; readonly lines: Map<string, number> },
): void {
  const texts = key.map((column) => row.text(column));
  if (texts.includes('')) return;
  const joined = texts.join(' of ');
  const earlier = lines.get(joined);
  if (earlier === undefined) lines.set(joined, line);
  else row.fault(key.join(' and '), `must not be repeated; ${joined} stands on line ${earlier} already`);
}

async function readResults(source: EvidenceSource): Promise<ReadonlyMap<string, LabResult>> {
  const results = new Map<string, LabResult>();
  const negativeRemainders = prepareRemainderCheck(source.parts);
  let reported: ReturnType<typeof reportedMeasures> | undefined;
  await readTable(source, {
    shape: SAMPLES,
    key: ['sample'],
    take: (row, { line, header }) => {
      reported ??= reportedMeasures(header);
      const result = readSampleRow(row, reported);
      if (!result) return;
      for (const message of negativeRemainders(result)) row.fault('sample', message);
      const note = warnOfSum(result);
      if (note !== undefined) source.warn({ file: SAMPLES.file, line, message: note });
      results.set(result.sample, result);
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
  await readTable(source, {
    shape: ELECTIONS,
    key: ['ticket', 'series'],
    take: (row, { line }) => {
      const election = readElectionRow(row, windowsOf);
      if (row.text('ticket') !== '')
        ticketed.push({ file: ELECTIONS.file, line, ticket: row.text('ticket') });
      if (!election) return;
      const ofTicket = elections.get(election.ticket) ?? new Map<string, LocalDate>();
      elections.set(election.ticket, ofTicket.set(election.series, election.date));
    },
  });
  return elections;
}

function electionWindows({ references }: AgreementParts): (series: string) => ElectionWindow[] {
  return (wanted) =>
    Object.entries(references).flatMap(([reference, { series, rule }]) =>
      rule.kind === 'seller-elects' && series === wanted ? [{ reference, from: rule.from, to: rule.to }] : [],
    );
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
