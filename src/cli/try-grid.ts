/**
 * The tables of `huskledger try`: what a formula pays for each pair of figures.
 */

import type { Figures } from '../documents/figures.ts';
import type { Agreement } from '../domain/agreement/document.ts';
import { MEASURE_NAMES, MEASURE_UNITS, type Measure, type Tested } from '../domain/agreement/measures.ts';
import { readerUnits } from '../domain/agreement/reader-units.ts';
import { currencyDecimals } from '../domain/money/currency.ts';
import { compare, decimal, type Exact, HUNDRED, subtract } from '../domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../domain/numbers/printing.ts';
import { adjustQuote } from '../domain/prices/reference-price.ts';
import type { TrialLoad, TriedPrice } from '../domain/worth/try-out.ts';

/** A measure and the figures that it is tried with. */
export interface Axis {
  readonly measure: Measure;
  readonly values: readonly Exact[];
}

/** What is tried, and with which figures. */
export interface Trial {
  readonly agreement: Agreement;
  readonly axes: readonly Axis[];
  readonly quotes: ReadonlyMap<string, string>;
  readonly load: TrialLoad;
  readonly price: (figures: ReadonlyMap<Tested, Exact>) => TriedPrice;
  readonly figures: Figures;
}

/** Two tables, per ton as fed and of dry matter, under a line that says what they are of. */
export function printTryOut(trial: Trial): string {
  const { agreement, axes, quotes, load, figures } = trial;
  const { ton, weight } = readerUnits(agreement);
  const tonName = ton === 'short-ton' ? 'short ton' : 'tonne';
  const fixed = axes.filter((axis) => axis.values.length === 1);
  const [rows, columns] = axes.filter((axis) => axis.values.length > 1);
  const given = [
    ...fixed.map(({ measure, values }) =>
      `${MEASURE_NAMES[measure]} ${values.map((value) => printDecimal(value)).join()} ${MEASURE_UNITS[measure]}`.trimEnd(),
    ),
    ...[...quotes].map(([name, quote]) => tellPrice(agreement, { name, quote })),
    `a load of ${figures.show(printDecimal(load.net))} ${weight}`,
    ...(load.distance ? [`hauled ${printDecimal(load.distance.length)} ${load.distance.unit}`] : []),
  ];
  const notes = new Set<string>();
  const table = (of: 'perTonAsFed' | 'perTonDry') => grid({ ...trial, rows, columns, of, notes });
  return [
    `Agreement ${agreement.id}: ${given.join(', ')}`,
    '',
    `${agreement.currency} per ${tonName} as fed`,
    '',
    table('perTonAsFed'),
    '',
    `${agreement.currency} per ${tonName} of dry matter`,
    '',
    table('perTonDry'),
    ...(notes.size === 0 ? [] : ['', ...[...notes].map((note) => `–  no price: ${note}`)]),
  ].join('\n');
}

/** "corn quoted at 4.25 USD, which counts as 4.1 USD" */
function tellPrice(
  { references, currency }: Agreement,
  { name, quote }: { name: string; quote: string },
): string {
  const reference = references[name];
  const used = reference
    ? adjustQuote({ quote: decimal(quote), quotedOn: [] }, reference).price
    : decimal(quote);
  const counts =
    compare(used, decimal(quote)) === 0 ? '' : `, which counts as ${printDecimal(used)} ${currency}`;
  return `${name} quoted at ${quote} ${currency}${counts}`;
}

interface Grid extends Trial {
  readonly rows: Axis | undefined;
  readonly columns: Axis | undefined;
  readonly of: 'perTonAsFed' | 'perTonDry';
  /** Why some cells have no price. */
  readonly notes: Set<string>;
}

function grid({ agreement, axes, rows, columns, price, of, notes, figures }: Grid): string {
  const decimals = currencyDecimals(agreement.currency) ?? 2;
  const cell = (chosen: readonly (readonly [Axis, Exact])[]): string => {
    const tried = price(figuresAt(axes, chosen));
    if (tried.impossible === undefined) return figures.show(printFixed(tried[of], decimals));
    notes.add(tried.impossible);
    return '–';
  };
  const rowValues = rows ? rows.values.map((value) => [rows, value] as const) : [undefined];
  const columnValues = columns ? columns.values.map((value) => [columns, value] as const) : [undefined];
  const head = columns ? columns.values.map((value) => `${printDecimal(value)}`) : ['Price'];
  const body = rowValues.map((row) => [
    row ? printDecimal(row[1]) : '',
    ...columnValues.map((column) => cell([row, column].filter((choice) => choice !== undefined))),
  ]);
  const corner = [rows, columns].flatMap((axis) => (axis ? [MEASURE_NAMES[axis.measure]] : [])).join(' \\ ');
  const lines = [[corner, ...head], ...body];
  const width = Math.max(...lines.flatMap((line) => line.slice(1).map((text) => text.length)), 8);
  return lines
    .map(([first = '', ...rest]) =>
      [first.padEnd(Math.max(corner.length, 8)), ...rest.map((text) => text.padStart(width))].join('  '),
    )
    .join('\n');
}

/** The figures of one cell: what is fixed, what its row and column say; moisture as its dry matter. */
function figuresAt(
  axes: readonly Axis[],
  chosen: readonly (readonly [Axis, Exact])[],
): ReadonlyMap<Tested, Exact> {
  const figures = new Map<Tested, Exact>();
  for (const axis of axes) {
    const value = chosen.find(([of]) => of === axis)?.[1] ?? axis.values[0];
    if (value === undefined) continue;
    if (axis.measure === 'moisture') figures.set('dry-matter', subtract(HUNDRED, value));
    else figures.set(axis.measure, value);
  }
  return figures;
}
