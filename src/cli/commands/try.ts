/**
 * `huskledger try FILE`: what a formula pays over a grid of tests, before anyone signs it.
 */
import { parseArgs } from 'node:util';
import { type Figures, figuresFor } from '../../documents/figures.ts';
import type { Agreement } from '../../domain/agreement/document.ts';
import {
  MEASURE_NAMES,
  MEASURE_UNITS,
  type Measure,
  TESTED,
  type Tested,
} from '../../domain/agreement/measures.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { currencyDecimals } from '../../domain/money/currency.ts';
import { type Exact, HUNDRED, parseDecimal, subtract } from '../../domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../domain/numbers/printing.ts';
import type { DistanceUnit } from '../../domain/quantities/units.ts';
import { warnOfOverpricing } from '../../domain/settlement/makes-sense.ts';
import { measuresNeeded, needsDistance } from '../../domain/settlement/prepare-term.ts';
import { readAxis } from '../../domain/worth/axis.ts';
import { prepareTryOut, type TrialLoad, type TriedPrice } from '../../domain/worth/try-out.ts';
import { EXIT, type ExitStatus, WrongUse } from '../exit-status.ts';
import type { Terminal } from '../terminal.ts';
import { readAgreementAt } from './words.ts';

export const TRY_HELP = `huskledger try FILE [--dry-matter 58] [--starch 50:64:2] [--ndf 20:32:4] [--price 4.25] [--net WEIGHT] [--distance LENGTH]

  Prints what the agreement in FILE pays per ton, as fed and of dry matter, before anyone signs it.

  --starch, --ndf, --dry-matter or --moisture, --adf, --crude-protein, --crude-fat, --ash, --ph, …
                    a figure, or a range from:to:step; constituents in percent of dry matter; at most two ranges
  --price FIGURE    the quote of every reference price that follows a series; --price corn=4.25 for one of several
  --net WEIGHT      the load that it is worked out on: pounds, or kilograms for a metric agreement (48000 lb, 22000 kg)
  --distance LENGTH its haul, in the agreement's miles or kilometres, where it prices any`;

const USUAL_NET = { lb: '48000', kg: '22000' } as const;
const MEASURE_OPTIONS: readonly Measure[] = ['moisture', ...TESTED];

export async function tryCommand(args: readonly string[], terminal: Terminal): Promise<ExitStatus> {
  const { values, positionals } = readArguments(args);
  const [file] = positionals;
  if (file === undefined || positionals.length > 1)
    throw new WrongUse('Name one file: huskledger try agreement.json');
  const agreement = await readAgreementAt(file, terminal);
  if (!agreement) return EXIT.wrong;

  const axes = readAxes(values, agreement);
  const quotes = readQuotes(values['price'] as readonly string[] | undefined, agreement);
  const load = readLoad(values, agreement);
  const { ton } = readerUnits(agreement);
  const price = prepareTryOut(agreement, { quotes, load, ton });

  for (const warning of warnOfOverpricing(agreement)) terminal.say(`Please check: ${warning}`);
  const figures = figuresFor(terminal.locale());
  await terminal.write(`${printTryOut({ agreement, axes, quotes, load, price, figures })}\n`);
  await terminal.flush();
  return EXIT.done;
}

function readArguments(args: readonly string[]) {
  const measures = Object.fromEntries(MEASURE_OPTIONS.map((name) => [name, { type: 'string' as const }]));
  return parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      ...measures,
      price: { type: 'string', multiple: true },
      net: { type: 'string' },
      distance: { type: 'string' },
    },
  });
}

type Values = Readonly<Record<string, unknown>>;

interface Axis {
  readonly measure: Measure;
  readonly values: readonly Exact[];
}

/** What was given for each measure, moisture among them; checks that nothing the formula needs is missing. */
function readAxes(values: Values, agreement: Agreement): Axis[] {
  const axes = MEASURE_OPTIONS.flatMap((measure): Axis[] => {
    const given = values[measure];
    if (typeof given !== 'string') return [];
    const read = readAxis(given);
    if ('wrong' in read) throw new WrongUse(`--${measure} ${read.wrong}.`);
    return [{ measure, values: read }];
  });
  const has = (measure: Measure) => axes.some((axis) => axis.measure === measure);
  if (has('moisture') && has('dry-matter')) throw new WrongUse('Give --dry-matter or --moisture, not both.');
  if (!has('moisture') && !has('dry-matter'))
    throw new WrongUse('--dry-matter is missing, like --dry-matter 58.');
  const missing = new Set(
    agreement.price.flatMap(measuresNeeded).filter((measure) => !isGiven(measure, has)),
  );
  if (missing.size > 0) {
    throw new WrongUse(`This formula needs ${[...missing].map((measure) => `--${measure}`).join(', ')} too.`);
  }
  if (axes.filter((axis) => axis.values.length > 1).length > 2) {
    throw new WrongUse('At most two of the figures can be ranges; give one figure for the others.');
  }
  return axes;
}

function isGiven(measure: Measure, has: (measure: Measure) => boolean): boolean {
  return measure === 'moisture' || measure === 'dry-matter' ? true : has(measure);
}

function readQuotes(
  given: readonly string[] | undefined,
  { references }: Agreement,
): ReadonlyMap<string, string> {
  const quoted = Object.entries(references).flatMap(([name, { rule }]) =>
    rule.kind === 'fixed' ? [] : [name],
  );
  const quotes = new Map<string, string>();
  for (const text of given ?? []) {
    const [name, price] = text.includes('=') ? splitAt(text, text.lastIndexOf('=')) : [undefined, text];
    const value = parseDecimal(price);
    if (value === undefined || value.n < 0n)
      throw new WrongUse(`--price must be a number like 4.25; found ${JSON.stringify(price)}.`);
    if (name !== undefined && !quoted.includes(name)) {
      throw new WrongUse(
        `--price ${name}: the reference prices that follow a series are ${quoted.join(', ') || 'none'}.`,
      );
    }
    for (const reference of name === undefined ? quoted : [name]) quotes.set(reference, price);
  }
  const missing = quoted.filter((name) => !quotes.has(name));
  if (missing.length > 0) {
    throw new WrongUse(`A price is missing: ${missing.map((name) => `--price ${name}=4.25`).join(' ')}.`);
  }
  return quotes;
}

function splitAt(text: string, index: number): [string, string] {
  return [text.slice(0, index), text.slice(index + 1)];
}

function readLoad(values: Values, agreement: Agreement): TrialLoad {
  const unit = readerUnits(agreement).weight;
  const net = readPositive('--net', values['net'] ?? USUAL_NET[unit]);
  const term = agreement.price.find(needsDistance);
  if (!term) return { net, unit, distance: undefined };
  if (values['distance'] === undefined)
    throw new WrongUse('This formula has a price per distance: --distance is missing.');
  const distanceUnit: DistanceUnit = 'per' in term && term.per === 'mile' ? 'mile' : 'km';
  return {
    net,
    unit,
    distance: { length: readPositive('--distance', values['distance']), unit: distanceUnit },
  };
}

function readPositive(option: string, given: unknown): Exact {
  const value = parseDecimal(String(given));
  if (value === undefined || value.n <= 0n)
    throw new WrongUse(`${option} must be a number above 0; found ${JSON.stringify(given)}.`);
  return value;
}

interface Trial {
  readonly agreement: Agreement;
  readonly axes: readonly Axis[];
  readonly quotes: ReadonlyMap<string, string>;
  readonly load: TrialLoad;
  readonly price: (figures: ReadonlyMap<Tested, Exact>) => TriedPrice;
  readonly figures: Figures;
}

function printTryOut(trial: Trial): string {
  const { agreement, axes, quotes, load, figures } = trial;
  const { ton, weight } = readerUnits(agreement);
  const tonName = ton === 'short-ton' ? 'short ton' : 'tonne';
  const fixed = axes.filter((axis) => axis.values.length === 1);
  const [rows, columns] = axes.filter((axis) => axis.values.length > 1);
  const given = [
    ...fixed.map(({ measure, values }) =>
      `${MEASURE_NAMES[measure]} ${values.map((value) => printDecimal(value)).join()} ${MEASURE_UNITS[measure]}`.trimEnd(),
    ),
    ...[...quotes].map(([name, quote]) => `${name} quoted at ${quote} ${agreement.currency}`),
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
