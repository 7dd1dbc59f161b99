/**
 * Settles a whole season from its input rows alone, in exact fractions: what `settle --json` must print,
 * without the words. Lines carry their exact rate and exact figure before rounding, for tests to hold
 * printed rates and ties against.
 */
import {
  compare,
  divide,
  type Fraction,
  hundred,
  multiply,
  parse,
  printTrimmed,
  printUnits,
  reduced,
} from './fraction.ts';
import { localDate } from './local-date.ts';
import { type Figures, figuresOf, neededMeasures } from './measures.ts';
import { netPounds } from './quantities.ts';
import { type Lack, prepareReferencePrices } from './reference-price.ts';
import {
  type Agreement,
  currencyDecimals,
  type LoadRow,
  type OracleSeason,
  type Reference,
} from './season.ts';
import { type LoadInHand, priceTerm } from './terms.ts';

export type Reason = 'no-result' | 'choice-needed' | 'refusal-contested' | Lack;
export type OracleLine = {
  label: string;
  quantity: string;
  unit: string;
  amount: string;
  rate: Fraction;
  exact: Fraction;
};
export type OracleReference = { price: string; quote: string; quotedOn: string[] };
type Delivered = {
  ticket: string;
  deliveredOn: string;
  net: { pounds: string };
  dryMatter?: { pounds: string };
};
export type SettledLoad = Delivered & {
  status: 'settled';
  references: Record<string, OracleReference>;
  lines: OracleLine[];
  total: string;
};
export type OracleLoad =
  | SettledLoad
  | (Delivered & { status: 'refused' })
  | (Delivered & { status: 'waiting'; reason: Reason });
export type OracleSettlements = {
  format: 'huskledger-settlements/1';
  agreement: string;
  currency: string;
  loads: OracleLoad[];
  total: string;
};

type Verdict = 'priced' | 'refused' | Reason;

function verdictOf(
  agreement: Agreement,
  needed: ReturnType<typeof neededMeasures>,
  figures: Figures | undefined,
  choice: string | undefined,
): Verdict {
  const outside = (agreement.acceptance ?? []).some((range) => {
    const value = figures?.get(range.on);
    if (value === undefined) return false;
    const under = range.below !== undefined && compare(value, parse(range.below)) < 0;
    return under || (range.above !== undefined && compare(value, parse(range.above)) > 0);
  });
  if (outside && choice === 'refuse') return 'refused';
  if (needed.some((measure) => figures?.has(measure) !== true)) return 'no-result';
  if (outside) return choice === undefined ? 'choice-needed' : 'priced';
  return choice === 'refuse' ? 'refusal-contested' : 'priced';
}

function pricedLines(agreement: Agreement, hand: LoadInHand): { lines: OracleLine[]; total: bigint } | Lack {
  const lines: OracleLine[] = [];
  let total = 0n;
  for (const term of agreement.price) {
    const priced = priceTerm(hand, term, total);
    if (typeof priced === 'string') return priced;
    lines.push({
      label: term.label,
      quantity: printTrimmed(priced.quantity),
      unit: priced.unit,
      amount: printUnits(priced.amount, hand.decimals),
      rate: reduced(priced.rate),
      exact: priced.exact,
    });
    total += priced.amount;
  }
  return { lines, total };
}

/** Settles load by load, for callers that do not hold the results of a whole season at once. */
export function prepareOracle(season: OracleSeason): (load: LoadRow) => OracleLoad {
  const { agreement } = season;
  const decimals = currencyDecimals.get(agreement.currency);
  if (decimals === undefined) throw new Error(`unknown currency "${agreement.currency}"`);
  const rounding = agreement.rounding ?? 'half-up';
  const samples = new Map(season.samples.map((row) => [row.sample, row]));
  const choices = new Map(season.choices.map((row) => [row.ticket, row.choice]));
  const known = new Map<string, Figures>();
  const needed = neededMeasures(agreement);
  const used = [...new Set(agreement.price.flatMap((term) => ('at' in term ? [term.at.reference] : [])))];
  const pricer = prepareReferencePrices(season);

  const reference = (name: string): Reference => {
    const found = agreement.references[name];
    if (found === undefined) throw new Error(`no reference "${name}"`);
    return found;
  };
  const figuresFor = (load: LoadRow, deliveredOn: string): Figures | undefined => {
    const perDay = agreement.sampling?.plan === 'per-day';
    const name = load.sample !== undefined && load.sample !== '' ? load.sample : perDay ? deliveredOn : '';
    const sample = samples.get(name);
    if (sample === undefined) return undefined;
    const figures = known.get(name) ?? figuresOf(sample, agreement);
    known.set(name, figures);
    return figures;
  };

  return (load) => {
    const deliveredOn = localDate(load.delivered_at, agreement.timeZone);
    const figures = figuresFor(load, deliveredOn);
    const asFed = netPounds(load);
    const percent = figures?.get('dry-matter');
    const dryMatter = percent === undefined ? undefined : divide(multiply(asFed, percent), hundred);
    const delivered: Delivered = { ticket: load.ticket, deliveredOn, net: { pounds: printTrimmed(asFed) } };
    if (dryMatter !== undefined) delivered.dryMatter = { pounds: printTrimmed(dryMatter) };

    const verdict = verdictOf(agreement, needed, figures, choices.get(load.ticket));
    if (verdict === 'refused') return { ...delivered, status: 'refused' };
    if (verdict !== 'priced') return { ...delivered, status: 'waiting', reason: verdict };

    const priceOf = (name: string) => pricer(name, load.ticket, deliveredOn);
    const weighed = { load, asFed, dryMatter };
    const { currency } = agreement;
    const hand: LoadInHand = { weighed, figures, reference, priceOf, currency, decimals, rounding };
    const priced = pricedLines(agreement, hand);
    if (typeof priced === 'string') return { ...delivered, status: 'waiting', reason: priced };

    const references: Record<string, OracleReference> = {};
    for (const name of used) {
      const found = priceOf(name);
      if (typeof found === 'string') throw new Error(`reference "${name}" has no price`);
      const { price, quote, quotedOn } = found;
      references[name] = { price: printTrimmed(price), quote: printTrimmed(quote), quotedOn };
    }
    const total = printUnits(priced.total, decimals);
    return { ...delivered, status: 'settled', references, lines: priced.lines, total };
  };
}

export function settleByOracle(season: OracleSeason): OracleSettlements {
  const { agreement } = season;
  const decimals = currencyDecimals.get(agreement.currency) ?? 0;
  const loads = season.loads.map(prepareOracle(season));
  let units = 0n;
  for (const load of loads) if (load.status === 'settled') units += BigInt(load.total.replace('.', ''));
  return {
    format: 'huskledger-settlements/1',
    agreement: agreement.id,
    currency: agreement.currency,
    loads,
    total: printUnits(units, decimals),
  };
}
