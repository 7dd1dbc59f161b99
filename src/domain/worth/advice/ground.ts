/**
 * What every look at a formula stands on: the usual load of its feed, the five examples, quotes, and a way to price.
 */
import type { Agreement } from '../../agreement/document.ts';
import { MEASURE_NAMES, MEASURE_UNITS, type Measure } from '../../agreement/measures.ts';
import { type ReaderUnits, readerUnits } from '../../agreement/reader-units.ts';
import { divide, type Exact, isNegative, negate, powerOfTen } from '../../numbers/exact.ts';
import { printDecimal, printFixed } from '../../numbers/printing.ts';
import { fromPounds, toPounds } from '../../quantities/units.ts';
import { moneyOf } from '../../settlement/settle-load.ts';
import { assumedQuotes } from '../assumed-quotes.ts';
import { type ExampleLoad, exampleLoads, USUAL_NET } from '../example-loads.ts';
import { haulFor } from '../trial-haul.ts';
import { prepareTriedLoad, type TrialFigures, type TrialLoad, type TriedLoad } from '../try-out.ts';
import { usualFeed } from '../usual-figures.ts';

export interface Ground {
  readonly agreement: Agreement;
  readonly quotes: ReadonlyMap<string, string>;
  readonly load: TrialLoad;
  readonly units: ReaderUnits;
  /** Figures of the feed's usual load. */
  readonly usual: TrialFigures;
  readonly examples: readonly ExampleLoad[];
  readonly tryLoad: (figures: TrialFigures) => TriedLoad;
  /** Money as it is printed, with its currency; an amount without its sign. */
  readonly tellMoney: (amount: Exact) => string;
  /** "a load of 24 short tons" */
  readonly loadInWords: string;
}

/** Prices by the given quotes, and by usual ones within floor and ceiling where none is given. */
export function prepareGround(agreement: Agreement, given?: ReadonlyMap<string, string>): Ground {
  const units = readerUnits(agreement);
  const net = USUAL_NET[units.weight];
  const load: TrialLoad = { net, unit: units.weight, distance: haulFor(agreement) };
  const quotes = assumedQuotes(agreement, given);
  const { decimals, currency } = moneyOf(agreement);
  const tons = printDecimal(fromPounds(toPounds(net, units.weight), units.ton));
  return {
    agreement,
    quotes,
    load,
    units,
    usual: usualFeed(agreement.feed).figures,
    examples: exampleLoads({ feed: agreement.feed, tests: [], unit: units.weight }),
    tryLoad: prepareTriedLoad(agreement, { quotes, load }),
    tellMoney: (amount) =>
      `${printFixed(isNegative(amount) ? negate(amount) : amount, decimals)} ${currency}`,
    loadInWords: `a load of ${tons} ${units.ton === 'short-ton' ? 'short tons' : 'tonnes'}`,
  };
}

/** The total of a tried load in money; undefined where it has no price. */
export function totalOf({ agreement }: Pick<Ground, 'agreement'>, tried: TriedLoad): Exact | undefined {
  if (tried.impossible !== undefined) return undefined;
  return { n: tried.total, d: powerOfTen(moneyOf(agreement).decimals) };
}

/** Minor units as money. */
export function moneyFrom({ agreement }: Pick<Ground, 'agreement'>, units: bigint): Exact {
  return { n: units, d: powerOfTen(moneyOf(agreement).decimals) };
}

/** A price per ton of dry matter, where the load has one. */
export function perTonDry(ground: Ground, tried: TriedLoad): Exact | undefined {
  const total = totalOf(ground, tried);
  if (tried.impossible !== undefined || !tried.dryPounds || !total) return undefined;
  return divide(total, fromPounds(tried.dryPounds, ground.units.ton));
}

/** "27.99 % NDF", "4.1 pH", "1500 µm particle size". */
export function tellFigure(measure: Measure, figure: Exact): string {
  const unit = MEASURE_UNITS[measure].replace(/ .*/, '');
  return [printDecimal(figure, 2), unit, MEASURE_NAMES[measure]].filter((part) => part !== '').join(' ');
}

/** The name of the ton that the agreement's people think in. */
export function tonName({ units }: Ground): string {
  return units.ton === 'short-ton' ? 'short ton' : 'tonne';
}
