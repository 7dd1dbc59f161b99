/**
 * Settles one load: everything it needs has been gathered, and nothing here reads or writes anything.
 */
import type { Agreement } from '../agreement/document.ts';
import type { Measure } from '../agreement/measures.ts';
import type { LocalDate } from '../dates/local-date.ts';
import type { DeliveredLoad } from '../deliveries/delivered-load.ts';
import { currencyDecimals } from '../money/currency.ts';
import { findQuote, type QuoteLack } from '../prices/find-quote.ts';
import type { PriceSeries } from '../prices/price-series.ts';
import { adjustQuote, type ReferencePrice } from '../prices/reference-price.ts';
import { type LabResult, testRules, usedFigure } from '../samples/lab-result.ts';
import { sampleOf } from '../samples/sampling-plan.ts';
import { toxinBreaches, toxinCautions } from '../samples/toxins.ts';
import { type Choice, prepareAcceptance } from './acceptance.ts';
import { type Allowance, allowanceLine } from './allowance.ts';
import { isLack, type Line, type Money } from './line.ts';
import { dryPoundsOf, type MeasuredLoad, needed, type UsedFigures } from './measured-load.ts';
import type { Outcome, Waiting } from './outcome.ts';
import { type PreparedTerm, prepareTerm } from './prepare-term.ts';
import { tellChoiceNeeded, tellContested, tellMissing } from './waiting-words.ts';

/** What is known beside the agreement and the load's own ticket. */
export interface Evidence {
  /** By sample. */
  readonly results: { readonly get: (sample: string) => LabResult | undefined };
  /** By series, oldest quote first. */
  readonly prices: ReadonlyMap<string, PriceSeries>;
  /** By ticket, then by series. */
  readonly elections: ReadonlyMap<string, ReadonlyMap<string, LocalDate>>;
  /** By ticket. */
  readonly choices: ReadonlyMap<string, Choice>;
  /** What a shared record knows and a season's files do not. */
  readonly record?: RecordEvidence;
}

export interface RecordEvidence {
  /** Why a sample's result does not count for now, in words: somebody contests it. */
  readonly unusable: (sample: string) => string | undefined;
  /** Whether a sample's result is held to published action levels beside the agreement's ranges. */
  readonly isHeldToLevels: (sample: string) => boolean;
  /** What both sides agreed to take off a load by its ticket: the buyer accepts it at that. */
  readonly allowances: ReadonlyMap<string, Allowance>;
}

/** What an agreement's amounts are in. Throws for a currency that `checkAgreement` refuses. */
export function moneyOf({ currency, rounding }: Pick<Agreement, 'currency' | 'rounding'>): Money {
  const decimals = needed(currencyDecimals(currency), `currency ${currency}`);
  return { currency, decimals, rounding: rounding ?? 'half-up' };
}

/**
 * Reads an agreement once and returns the function that settles its loads. The same load and evidence always give
 * the same outcome.
 */
export function prepareSettlement(
  agreement: Agreement,
  evidence: Evidence,
): (load: DeliveredLoad) => Outcome {
  const money = moneyOf(agreement);
  const rules = testRules(agreement);
  const terms = agreement.price.map((term) => prepareTerm(term, { references: agreement.references, money }));
  const acceptance = prepareAcceptance(agreement);
  const needs = new Set<Measure>([...terms.flatMap((term) => term.needs), ...acceptance.needs]);
  const figuresTaken = new Set<Measure>(['dry-matter', 'starch', 'ndf', ...needs]);
  const pricesOf = rememberPrices(agreement, evidence, terms);

  const measure = (load: DeliveredLoad): MeasuredLoad => {
    const sample = sampleOf(load, agreement);
    const counts = sample !== undefined && evidence.record?.unusable(sample) === undefined;
    const result = counts ? evidence.results.get(sample) : undefined;
    if (!result) return { load, result, figures: {}, dryPounds: undefined };
    const figures: UsedFigures = {};
    for (const name of figuresTaken) {
      const figure = usedFigure(result, name, rules);
      if (figure !== undefined) figures[name] = figure;
    }
    return { load, result, figures, dryPounds: dryPoundsOf(load, figures) };
  };

  const price = (measured: MeasuredLoad): Outcome => {
    const { prices, lacks } = pricesOf(measured.load);
    const lines: Line[] = [];
    let total = 0n;
    for (const term of terms) {
      const lack = term.reference === undefined ? undefined : lacks.get(term.reference);
      if (lack) return waiting(measured, lack.reason, lack.detail);
      const line = term.evaluate({ measured, prices, before: total });
      if (isLack(line)) return waiting(measured, line.reason, line.detail);
      lines.push(line);
      total += line.amount;
    }
    const allowance = evidence.record?.allowances.get(measured.load.ticket);
    if (allowance) {
      if (allowance.weight === 'dry-matter' && !measured.dryPounds) {
        return waiting(measured, 'no-result', tellNoResult(measured, ['dry-matter']));
      }
      const line = allowanceLine(allowance, { measured, money });
      lines.push(line);
      total += line.amount;
    }
    return { ...measured, status: 'settled', prices, lines, total };
  };

  const tellNoResult = (measured: MeasuredLoad, missing: readonly Measure[]): string => {
    const sample = sampleOf(measured.load, agreement);
    const unusable = sample === undefined ? undefined : evidence.record?.unusable(sample);
    return unusable ?? tellMissing(measured, missing, agreement);
  };

  /** The result where published levels are beside the agreement's own ranges. */
  const heldToLevels = ({ result }: MeasuredLoad): LabResult | undefined =>
    result && evidence.record?.isHeldToLevels(result.sample) ? result : undefined;

  return (load) => {
    const measured = measure(load);
    const held = heldToLevels(measured);
    const breaches = [...acceptance.breaches(measured.figures), ...(held ? toxinBreaches(held) : [])];
    const isAllowedFor = evidence.record?.allowances.has(load.ticket);
    const choice = isAllowedFor ? 'accept' : evidence.choices.get(load.ticket);
    if (breaches.length > 0 && choice === 'refuse') return { ...measured, status: 'refused', breaches };

    const missing = [...needs].filter((name) => measured.figures[name] === undefined);
    if (missing.length > 0) return waiting(measured, 'no-result', tellNoResult(measured, missing));
    if (breaches.length > 0 && choice === undefined) {
      const cautions = held ? toxinCautions(held) : [];
      return waiting(measured, 'choice-needed', tellChoiceNeeded({ breaches, cautions }, agreement));
    }
    if (choice === 'refuse') return waiting(measured, 'refusal-contested', tellContested(agreement));
    return price(measured);
  };
}

function waiting(measured: MeasuredLoad, reason: Waiting['reason'], detail: string): Waiting {
  return { ...measured, status: 'waiting', reason, detail };
}

/** The prices of the references that terms are priced by, or what they lack; by reference. */
interface FoundPrices {
  readonly prices: ReadonlyMap<string, ReferencePrice>;
  readonly lacks: ReadonlyMap<string, QuoteLack>;
}

/** Reference prices are the same for every load of a day with the same elections, so they are worked out once. */
function rememberPrices(
  agreement: Agreement,
  evidence: Evidence,
  terms: readonly PreparedTerm[],
): (load: DeliveredLoad) => FoundPrices {
  const names = [...new Set(terms.map(({ reference }) => reference))].filter((name) => name !== undefined);
  const references = names.map((name) => {
    const reference = needed(agreement.references[name], `reference ${name}`);
    return { name, reference, seriesName: reference.series ?? '' };
  });
  const rounding = agreement.rounding ?? 'half-up';
  const known = new Map<string, FoundPrices>();

  const electedFor = (load: DeliveredLoad) => {
    const elections = evidence.elections.get(load.ticket);
    return (index: number): LocalDate | undefined => {
      const { reference, seriesName } = needed(references[index], 'reference');
      return reference.rule.kind === 'seller-elects' ? elections?.get(seriesName) : undefined;
    };
  };
  return (load) => {
    const elected = electedFor(load);
    const key = `${load.deliveredOn} ${references.map((_, index) => elected(index)).join()}`;
    const remembered = known.get(key);
    if (remembered) return remembered;
    const prices = new Map<string, ReferencePrice>();
    const lacks = new Map<string, QuoteLack>();
    for (const [index, { name, reference, seriesName }] of references.entries()) {
      const found = findQuote({
        rule: reference.rule,
        name: seriesName,
        series: evidence.prices.get(seriesName) ?? [],
        deliveredOn: load.deliveredOn,
        electedOn: elected(index),
        rounding,
      });
      if ('reason' in found) lacks.set(name, found);
      else prices.set(name, adjustQuote(found, reference));
    }
    known.set(key, { prices, lacks });
    return { prices, lacks };
  };
}
