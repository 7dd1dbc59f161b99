/**
 * A settled load as an invoice prints it: every figure as a string, in the reader's way of writing numbers.
 */

import type { Agreement } from '../../domain/agreement/document.ts';
import { MEASURE_NAMES, MEASURE_UNITS, type Tested } from '../../domain/agreement/measures.ts';
import { readerUnits } from '../../domain/agreement/reader-units.ts';
import type { ZoneCalendar } from '../../domain/dates/instant.ts';
import { type Exact, HUNDRED, isNegative, multiply, percent, subtract } from '../../domain/numbers/exact.ts';
import { printDecimal, printFixed, printWithEllipsis } from '../../domain/numbers/printing.ts';
import { fromPounds } from '../../domain/quantities/units.ts';
import { reportedFigure, type TestRules, usedFigure } from '../../domain/samples/lab-result.ts';
import { tellAdjustments } from '../../domain/settlement/derivation.ts';
import { type Money, printAmount, unitName } from '../../domain/settlement/line.ts';
import type { Outcome, Settled } from '../../domain/settlement/outcome.ts';
import { printRate } from '../../domain/settlement/print-rate.ts';
import type { Figures } from '../figures.ts';
import type { LoadComposition, StripShare } from '../strip/load-strip.ts';
import type { InvoiceLoad, InvoiceReference, InvoiceTests } from './invoice-data.ts';

export interface LoadSetting {
  readonly agreement: Agreement;
  readonly money: Money;
  readonly figures: Figures;
  readonly calendar: ZoneCalendar;
  readonly rules: TestRules;
  /** Pounds of the heaviest load on the invoices, which the longest strip stands for. */
  readonly heaviest: Exact;
}

/** What of the setting a load's ticket, tests and strip are told with. */
export type TicketSetting = Omit<LoadSetting, 'money'>;

/** Decimals of a kilogram weight converted from another unit, and of a percentage on the strip. */
const CONVERTED_PLACES = 1;
const STRIP_PLACES = 1;
const TEST_PLACES = 4;

/** A settled load, whole. */
export function describeLoad(settled: Settled, setting: LoadSetting): InvoiceLoad {
  const { money, figures } = setting;
  return {
    ...describeTicket(settled, setting),
    references: describeReferences(settled, setting),
    lines: settled.lines.map((line) => ({
      label: line.label,
      quantity: figures.show(printDecimal(line.quantity)),
      unit: unitName(line.unit),
      rate: figures.show(printRate(line, money)),
      amount: figures.show(printAmount(line.amount, money)),
      how: line.how(),
    })),
    total: figures.show(printAmount(settled.total, money)),
  };
}

/** What is known of a load before it is priced: its ticket, its tests where there are any, its strip. */
export function describeTicket(
  outcome: Outcome,
  setting: TicketSetting,
): Omit<InvoiceLoad, 'references' | 'lines' | 'total'> {
  const { load, figures: used } = outcome;
  const { figures, calendar } = setting;
  const scale = (weight: Exact) => ({ figure: figures.show(printDecimal(weight)), unit: load.unit });
  const tests = describeTests(outcome, setting);
  return {
    ticket: load.ticket,
    deliveredAt: calendar.wallClockAt(load.deliveredAt),
    ...(load.truck === undefined ? {} : { truck: load.truck }),
    gross: scale(load.gross),
    tare: scale(load.tare),
    net: scale(load.net),
    netConverted: printNet(load.netPounds, setting),
    strip: describeStrip(outcome, setting),
    ...(used['dry-matter'] ? { dryMatterPercent: figures.show(printFixed(used['dry-matter'], 2)) } : {}),
    ...(used.starch ? { starchPercent: figures.show(printFixed(used.starch, 2)) } : {}),
    ...(tests ? { tests } : {}),
  };
}

/** A net weight in the unit that the invoice gives weights in, without the unit. */
export function printNet(
  pounds: Exact,
  { agreement, figures }: Pick<LoadSetting, 'agreement' | 'figures'>,
): string {
  const { weight } = readerUnits(agreement);
  return figures.show(printDecimal(fromPounds(pounds, weight), CONVERTED_PLACES));
}

function describeTests({ result }: Outcome, { rules, figures }: TicketSetting): InvoiceTests | undefined {
  if (!result) return undefined;
  const measures: readonly Tested[] = ['dry-matter', ...result.reported];
  return {
    sample: result.sample,
    basis: result.basis === 'as-fed' ? 'as-fed weight' : 'dry matter',
    measures: measures.flatMap((measure) => {
      const figure = usedFigure(result, measure, rules);
      if (figure === undefined || reportedFigure(result, measure) === undefined) return [];
      const shown = figures.show(printWithEllipsis(figure, TEST_PLACES));
      return [{ name: MEASURE_NAMES[measure], figure: shown, unit: MEASURE_UNITS[measure] }];
    }),
  };
}

function describeReferences({ prices }: Settled, { agreement, figures }: LoadSetting): InvoiceReference[] {
  return [...prices].map(([name, { price, quote, quotedOn }]) => {
    const reference = agreement.references[name];
    const adjusted = reference ? tellAdjustments(reference, price) : [];
    return {
      ...(reference?.series === undefined || quotedOn.length === 0
        ? { name: [name, ...adjusted].join(', ') }
        : { name, series: [reference.series, ...adjusted].join(', ') }),
      quote: figures.show(printDecimal(quote)),
      quotedOn,
      price: figures.show(printDecimal(price)),
      unit: `${agreement.currency} per ${reference?.unit ?? 'unit'}`,
    };
  });
}

/** Water, starch and fibre as parts of the wet weight; a part that was not tested is not drawn as known. */
function describeStrip({ load, figures: used, dryPounds }: Outcome, setting: TicketSetting): LoadComposition {
  const { figures, heaviest, agreement } = setting;
  const { weight } = readerUnits(agreement);
  const share = (part: Exact | undefined): StripShare | null =>
    part === undefined
      ? null
      : { share: asNumber(part), percent: figures.show(printFixed(multiply(part, HUNDRED), STRIP_PLACES)) };
  const dryMatter = dryPounds && used['dry-matter'] ? percent(used['dry-matter']) : undefined;
  const ofDryMatter = (figure: Exact | undefined) =>
    dryMatter && figure ? multiply(dryMatter, percent(figure)) : undefined;
  const starch = ofDryMatter(used.starch);
  const fibre = ofDryMatter(used.ndf);
  const rest = [starch, fibre].reduce<Exact | undefined>(
    (left, part) => (left && part ? subtract(left, part) : left),
    dryMatter,
  );
  return {
    weight: `${printNet(load.netPounds, setting)} ${weight}`,
    length: asNumber({ n: load.netPounds.n * heaviest.d, d: load.netPounds.d * heaviest.n }),
    water: share(dryMatter && subtract({ n: 1n, d: 1n }, dryMatter)),
    starch: share(starch),
    fibre: share(fibre),
    restPercent: rest ? figures.show(printFixed(multiply(rest, HUNDRED), STRIP_PLACES)) : null,
  };
}

/** A length in a picture, where binary fractions do no harm. Rounding of tests can take a sum a hair past its ends. */
function asNumber(value: Exact): number {
  return isNegative(value) ? 0 : Math.min(1, Number(printDecimal(value, 9)));
}
