/**
 * The readable table of `settle`: a line a load, waiting loads with their reason, and the totals at the end.
 */

import type { Figures } from '../documents/figures.ts';
import { FEEDS } from '../domain/agreement/measures.ts';
import { readerUnits } from '../domain/agreement/reader-units.ts';
import { divide, type Exact, HUNDRED, isZero, multiply, ZERO } from '../domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../domain/numbers/printing.ts';
import { RunningSum } from '../domain/numbers/running-sum.ts';
import { fromPounds } from '../domain/quantities/units.ts';
import { printAmount } from '../domain/settlement/line.ts';
import type { Outcome } from '../domain/settlement/outcome.ts';
import { referenceOf } from '../domain/settlement/prepare-term.ts';
import type { SettledSeason } from '../usecases/settle-folder.ts';

export interface SettledTable {
  readonly head: string;
  readonly row: (outcome: Outcome) => string;
  /** The totals over every load that `row` was given. */
  readonly foot: () => string;
}

interface Totals {
  readonly counts: Record<Outcome['status'], number>;
  /** Of settled loads. */
  readonly netPounds: RunningSum;
  readonly dryPounds: RunningSum;
  amount: bigint;
}

const WEIGHT_PLACES = 1;
const TEST_PLACES = 2;

/** A table for one season; rows are printed as they come, so widths are fixed beforehand. */
export function settledTable({ season, money }: SettledSeason, figures: Figures): SettledTable {
  const { agreement } = season;
  const unit = readerUnits(agreement).weight;
  const references = pricedBy(season.agreement.price.map(referenceOf));
  const columns = columnsFor({ ticketWidth: season.ticketWidth, references, unit, currency: money.currency });
  const totals: Totals = {
    counts: { settled: 0, refused: 0, waiting: 0 },
    netPounds: new RunningSum(),
    dryPounds: new RunningSum(),
    amount: 0n,
  };
  const weight = (pounds: Exact) =>
    figures.show(printFixed(fromPounds(pounds, unit), unit === 'lb' ? 0 : WEIGHT_PLACES));
  const test = (value: Exact | undefined) => (value ? figures.show(printFixed(value, TEST_PLACES)) : '–');

  const cells = (outcome: Outcome): string[] => {
    const { load, figures: used } = outcome;
    const start = [
      load.ticket.replace(/\s+/g, ' '),
      load.deliveredOn,
      weight(load.netPounds),
      test(used['dry-matter']),
      test(used.starch),
    ];
    if (outcome.status !== 'settled') return start;
    const prices = references.map((name) =>
      figures.show(printDecimal(outcome.prices.get(name)?.price ?? ZERO)),
    );
    return [...start, ...prices, figures.show(printAmount(outcome.total, money))];
  };
  return {
    head: [
      `${agreement.seller} to ${agreement.buyer}, agreement ${agreement.id}: ${FEEDS[agreement.feed]}`,
      '',
      printRow(
        columns.map(({ name }) => name),
        columns,
      ),
      printRow(
        columns.map(({ width }) => '-'.repeat(width)),
        columns,
      ),
    ].join('\n'),
    row: (outcome) => {
      count(totals, outcome);
      const row = printRow(cells(outcome), columns);
      if (outcome.status === 'settled') return row;
      return `${row}  ${outcome.status === 'refused' ? `refused: ${outcome.breaches.join('; ')}` : `waits (${outcome.reason}): ${outcome.detail}`}`;
    },
    foot: () => {
      const { settled, refused, waiting } = totals.counts;
      const netPounds = totals.netPounds.value();
      const dryMatter = isZero(netPounds)
        ? undefined
        : multiply(divide(totals.dryPounds.value(), netPounds), HUNDRED);
      const summary = ['Total', '', weight(netPounds), test(dryMatter), '', ...references.map(() => '')];
      return [
        printRow(
          columns.map(({ width }) => '-'.repeat(width)),
          columns,
        ),
        printRow([...summary, figures.show(printAmount(totals.amount, money))], columns),
        '',
        `${settled} settled, ${refused} refused, ${waiting} waiting. The total is of the settled loads.`,
      ].join('\n');
    },
  };
}

function pricedBy(names: readonly (string | undefined)[]): string[] {
  return [...new Set(names.filter((name) => name !== undefined))];
}

function count(totals: Totals, outcome: Outcome): void {
  totals.counts[outcome.status]++;
  if (outcome.status !== 'settled') return;
  totals.amount += outcome.total;
  totals.netPounds.add(outcome.load.netPounds);
  totals.dryPounds.add(outcome.dryPounds ?? ZERO);
}

interface Column {
  readonly name: string;
  readonly width: number;
  readonly alignLeft?: boolean;
}

function columnsFor(of: {
  ticketWidth: number;
  references: readonly string[];
  unit: string;
  currency: string;
}): Column[] {
  const titled = (name: string, width: number): Column => ({ name, width: Math.max(width, name.length) });
  return [
    { ...titled('Ticket', of.ticketWidth), alignLeft: true },
    { ...titled('Delivered', 10), alignLeft: true },
    titled(`Net, ${of.unit}`, 12),
    titled('Dry matter, %', 6),
    titled('Starch, %', 6),
    ...of.references.map((name) => titled(`${name}, ${of.currency}`, 9)),
    titled(`Amount, ${of.currency}`, 14),
  ];
}

function printRow(cells: readonly string[], columns: readonly Column[]): string {
  return columns
    .slice(0, cells.length)
    .map(({ width, alignLeft }, index) => {
      const cell = cells[index] ?? '';
      return alignLeft ? cell.padEnd(width) : cell.padStart(width);
    })
    .join('  ')
    .trimEnd();
}
