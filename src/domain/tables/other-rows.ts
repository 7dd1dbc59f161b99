/**
 * Rows of `prices.csv`, `elections.csv` and `choices.csv`.
 */
import type { LocalDate } from '../dates/local-date.ts';
import type { ElectionWindow } from '../prices/election-windows.ts';
import type { Quote } from '../prices/price-series.ts';
import type { Choice } from '../settlement/acceptance.ts';
import type { Row } from './row.ts';

export interface QuoteRow extends Quote {
  readonly series: string;
}

export interface ElectionRow {
  readonly ticket: string;
  readonly series: string;
  readonly date: LocalDate;
}

export interface ChoiceRow {
  readonly ticket: string;
  readonly choice: Choice;
}

/** A quote, or undefined where the row has faults. */
export function readQuoteRow(row: Row): QuoteRow | undefined {
  const series = row.name('series');
  const date = row.date('date');
  const price = row.amount('price');
  return row.problems.length > 0 || !date || !price ? undefined : { series, date, price };
}

/** An election, or undefined where the row has faults; `windowsOf` gives the windows that a series' date must be in. */
export function readElectionRow(
  row: Row,
  windowsOf: (series: string) => readonly ElectionWindow[],
): ElectionRow | undefined {
  const ticket = row.name('ticket');
  const series = row.name('series');
  const date = row.date('date');
  if (date) {
    for (const { reference, from, to } of windowsOf(series)) {
      if (date < from || date > to)
        row.fault('date', `must be from ${from} to ${to}, the agreed window of ${reference}; found ${date}`);
    }
  }
  return row.problems.length > 0 || !date ? undefined : { ticket, series, date };
}

/** A choice, or undefined where the row has faults. */
export function readChoiceRow(row: Row): ChoiceRow | undefined {
  const ticket = row.name('ticket');
  const choice = row.word<Choice>('choice', ['accept', 'refuse']);
  return row.problems.length > 0 || !choice ? undefined : { ticket, choice };
}
