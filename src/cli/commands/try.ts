/**
 * `huskledger try FILE`: what a formula pays over a grid of tests, before anyone signs it.
 */
import { parseArgs } from 'node:util';
import { figuresFor } from '../../documents/figures.ts';
import type { Agreement } from '../../domain/agreement/document.ts';
import { type Measure, TESTED } from '../../domain/agreement/measures.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import { type Exact, parseDecimal } from '../../domain/numbers/exact.ts';
import { warnOfPrice } from '../../domain/settlement/makes-sense.ts';
import { measuresNeeded } from '../../domain/settlement/prepare-term.ts';
import { readAxis } from '../../domain/worth/axis.ts';
import { USUAL_NET } from '../../domain/worth/example-loads.ts';
import type { Axis } from '../../domain/worth/price-grid.ts';
import { haulUnit } from '../../domain/worth/trial-haul.ts';
import type { TrialLoad } from '../../domain/worth/try-out.ts';
import { EXIT, type ExitStatus, WrongUse } from '../exit-status.ts';
import type { Terminal } from '../terminal.ts';
import { printTryOut } from '../try-grid.ts';
import { readAgreementAt } from './words.ts';

export const TRY_HELP = `huskledger try FILE [--dry-matter 58] [--starch 50:64:2] [--ndf 20:32:4] [--price 4.25] [--net WEIGHT] [--distance LENGTH]

  Prints what the agreement in FILE pays per ton, as fed and of dry matter, before anyone signs it.

  --starch, --ndf, --dry-matter or --moisture, --adf, --crude-protein, --crude-fat, --ash, --ph, …
                    a figure, or a range from:to:step; constituents in percent of dry matter; at most two ranges
  --price FIGURE    the quote of every reference price that follows a series; --price corn=4.25 for one of several
  --net WEIGHT      the load that it is worked out on: pounds, or kilograms for a metric agreement (48000 lb, 22000 kg)
  --distance LENGTH its haul, in the agreement's miles or kilometres, where it prices any`;

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

  for (const warning of warnOfPrice(agreement)) terminal.say(`Please check: ${warning}`);
  const figures = figuresFor(terminal.locale());
  await terminal.write(`${printTryOut({ agreement, axes, quotes, load, figures })}\n`);
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
  const net = values['net'] === undefined ? USUAL_NET[unit] : readPositive('--net', values['net']);
  const distanceUnit = haulUnit(agreement);
  if (!distanceUnit) return { net, unit, distance: undefined };
  if (values['distance'] === undefined)
    throw new WrongUse('This formula has a price per distance: --distance is missing.');
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
