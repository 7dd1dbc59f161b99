/**
 * The tables of `huskledger try`: what a formula pays for each pair of figures.
 */

import type { Figures } from '../documents/figures.ts';
import type { Agreement } from '../domain/agreement/document.ts';
import { MEASURE_NAMES, MEASURE_UNITS, type Measure } from '../domain/agreement/measures.ts';
import { readerUnits } from '../domain/agreement/reader-units.ts';
import { currencyDecimals } from '../domain/money/currency.ts';
import { compare, decimal, type Exact } from '../domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../domain/numbers/printing.ts';
import { adjustQuote } from '../domain/prices/reference-price.ts';
import { type Axis, type PriceGrid, priceGrid } from '../domain/worth/price-grid.ts';
import type { TrialLoad, TriedPrice } from '../domain/worth/try-out.ts';

/** What is tried, and with which figures. */
export interface Trial {
  readonly agreement: Agreement;
  readonly axes: readonly Axis[];
  readonly quotes: ReadonlyMap<string, string>;
  readonly load: TrialLoad;
  readonly figures: Figures;
}

/** Two tables, per ton as fed and of dry matter, under a line that says what they are of. */
export function printTryOut({ agreement, axes, quotes, load, figures }: Trial): string {
  const { ton, weight } = readerUnits(agreement);
  const tonName = ton === 'short-ton' ? 'short ton' : 'tonne';
  const fixed = axes.flatMap(({ measure, values: [value, another] }): [Measure, Exact][] =>
    value && !another ? [[measure, value]] : [],
  );
  const [rows, columns] = axes.filter((axis) => axis.values.length > 1);
  const given = [
    ...fixed.map(([measure, value]) =>
      `${MEASURE_NAMES[measure]} ${printDecimal(value)} ${MEASURE_UNITS[measure]}`.trimEnd(),
    ),
    ...[...quotes].map(([name, quote]) => tellPrice(agreement, { name, quote })),
    `a load of ${figures.show(printDecimal(load.net))} ${weight}`,
    ...(load.distance ? [`hauled ${printDecimal(load.distance.length)} ${load.distance.unit}`] : []),
  ];
  const grid = priceGrid(agreement, { rows, columns, fixed: new Map(fixed), quotes, load });
  const decimals = currencyDecimals(agreement.currency) ?? 2;
  const table = (of: 'perTonAsFed' | 'perTonDry') =>
    printTable(grid, (price) =>
      price.impossible === undefined ? figures.show(printFixed(price[of], decimals)) : '–',
    );
  const notes = new Set(grid.cells.flat().flatMap(({ impossible }) => impossible ?? []));
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

function printTable({ rows, columns, cells }: PriceGrid, print: (price: TriedPrice) => string): string {
  const head = columns ? columns.values.map((value) => printDecimal(value)) : ['Price'];
  const body = cells.map((row, index) => {
    const value = rows?.values[index];
    return [value ? printDecimal(value) : '', ...row.map(print)];
  });
  const corner = [rows, columns].flatMap((axis) => (axis ? [MEASURE_NAMES[axis.measure]] : [])).join(' \\ ');
  const lines = [[corner, ...head], ...body];
  const width = Math.max(...lines.flatMap((line) => line.slice(1).map((text) => text.length)), 8);
  return lines
    .map(([first = '', ...rest]) =>
      [first.padEnd(Math.max(corner.length, 8)), ...rest.map((text) => text.padStart(width))].join('  '),
    )
    .join('\n');
}
