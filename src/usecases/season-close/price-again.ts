/**
 * The settled loads of an agreement priced again by the season's own averages, each by the price terms of the version that it
 * was delivered under.
 */
import type { Conditions } from '../../domain/agreement/conditions.ts';
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { DeliveredLoad } from '../../domain/deliveries/delivered-load.ts';
import { type LabResult, testRules } from '../../domain/samples/lab-result.ts';
import {
  atFixedPrices,
  type LoadAgain,
  seasonTest,
  seriesToAverage,
  type TrueUpOutcome,
  trueUpOf,
  type WindowMean,
  windowMean,
} from '../../domain/season-close/true-up.ts';
import type { Allowance } from '../../domain/settlement/allowance.ts';
import { prepareRemainderCheck } from '../../domain/settlement/check-remainders.ts';
import type { Outcome, Settled } from '../../domain/settlement/outcome.ts';
import { prepareSettlement } from '../../domain/settlement/settle-load.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readAllowances } from '../../store/rows/allowance-rows.ts';
import { newestQuotes, readQuoteVersions } from '../../store/rows/quote-rows.ts';
import type { AgreedTerms, FoundAgreement } from '../agreements/find-agreement.ts';
import { groupRows } from '../group-rows.ts';
import type { LoadOutcome } from '../loads/load-views.ts';
import { allowancesByTicket, priceSeries } from '../settlements/gather-evidence.ts';

export type TrueUpTerms = NonNullable<Conditions['trueUp']>;

/** A load with the settlement that stands. */
export interface SettledLoad extends LoadOutcome {
  readonly outcome: Settled;
}

type Waits = { readonly waits: string };

/** What the rule comes to over the settled loads, or in words why it cannot be worked out yet. */
export async function priceAgain(
  tx: Transaction,
  found: FoundAgreement,
  { rule, loads }: { readonly rule: TrueUpTerms; readonly loads: readonly SettledLoad[] },
): Promise<TrueUpOutcome | Waits> {
  if (loads.length === 0) return { waits: 'no load has settled' };
  const means = rule.prices ? await meansOf(tx, found, { window: rule.prices, loads }) : [];
  if ('waits' in means) return means;
  const test = rule.tests ? averageTest(found, loads) : undefined;
  const ids = loads.map(({ row }) => row.id);
  const allowances = allowancesByTicket(await readAllowances(tx, found.row.id, ids));
  const price = preparePricing({ means, test, loads, allowances });
  const again: LoadAgain[] = [];
  for (const load of loads) {
    const outcome = price(load);
    if ('waits' in outcome) return outcome;
    if (outcome.status !== 'settled') return { waits: `load ${load.row.ticket}: ${toldOf(outcome)}` };
    again.push({
      ticket: load.row.ticket,
      deliveredOn: load.outcome.load.deliveredOn,
      settled: load.outcome.total,
      again: outcome.total,
    });
  }
  return trueUpOf(again, { means, test });
}

/** A season's own figures leave a load waiting as any others would; nobody can refuse it by them. */
function toldOf(outcome: Exclude<Outcome, Settled>): string {
  return outcome.status === 'waiting'
    ? outcome.detail
    : 'by the season’s figures it lies outside the agreed ranges';
}

/** The mean of each series that some load's terms follow. */
async function meansOf(
  tx: Transaction,
  { row, agreement }: FoundAgreement,
  {
    window,
    loads,
  }: { readonly window: NonNullable<TrueUpTerms['prices']>; readonly loads: readonly SettledLoad[] },
): Promise<readonly WindowMean[] | Waits> {
  const versions = new Set(loads.map(({ terms }) => terms));
  const names = new Set([...versions].flatMap((terms) => seriesToAverage(terms.agreement)));
  const quotes = groupRows(newestQuotes(await readQuoteVersions(tx, row.id)), ({ series }) => series);
  const rounding = agreement.rounding ?? 'half-up';
  const days = { from: window.from as LocalDate, to: window.to as LocalDate };
  const means: WindowMean[] = [];
  for (const name of names) {
    const mean = windowMean({ name, series: priceSeries(quotes.get(name) ?? []), rounding }, days);
    if ('waits' in mean) return mean;
    means.push(mean);
  }
  return means;
}

function averageTest({ agreement }: FoundAgreement, loads: readonly SettledLoad[]): LabResult | undefined {
  const tested = loads.flatMap(({ terms, outcome: { load, result } }) =>
    result ? [{ netPounds: load.netPounds, result, rules: testRules(terms.agreement) }] : [],
  );
  return seasonTest(tested, agreement.rounding ?? 'half-up');
}

interface Pricing {
  readonly means: readonly WindowMean[];
  readonly test: LabResult | undefined;
  readonly loads: readonly SettledLoad[];
  readonly allowances: ReadonlyMap<string, Allowance>;
}

/** Prices a load with every price fixed, so that nothing but the season's figures differs from its settlement. */
function preparePricing({ means, test, loads, allowances }: Pricing): (load: SettledLoad) => Outcome | Waits {
  const bySeries = new Map(means.map((mean) => [mean.series, mean]));
  // Each load has a sample of its own here: one sample may have been settled by, and corrected since.
  const results = new Map(loads.map(({ row, outcome }) => [row.id, outcome.result]));
  const choices = new Map(loads.map(({ row }) => [row.ticket, 'accept' as const]));
  const known = new Map<string, (load: DeliveredLoad) => Outcome | Waits>();

  const prepare = ({ terms, outcome }: SettledLoad): ((load: DeliveredLoad) => Outcome | Waits) => {
    const agreement = atFixedPrices(terms.agreement, { settled: outcome.prices, means: bySeries });
    const [odd] = test ? prepareRemainderCheck(agreement)(test) : [];
    if (odd !== undefined) return () => ({ waits: `the season’s average test ${odd}` });
    return prepareSettlement(agreement, {
      results: { get: (sample) => (results.get(sample) && test) ?? results.get(sample) },
      prices: new Map(),
      elections: new Map(),
      choices,
      // What counted for the settlement counts here; that the buyer accepted a load stands.
      record: { unusable: () => undefined, isHeldToLevels: () => false, allowances },
    });
  };
  return (load) => {
    const key = keyOf(load.terms, load.outcome);
    const settle = known.get(key) ?? prepare(load);
    known.set(key, settle);
    return settle({ ...load.outcome.load, sample: load.row.id });
  };
}

/** Loads of one version that settled at the same quotes are priced alike. */
function keyOf({ row }: AgreedTerms, { prices }: Settled): string {
  const quotes = [...prices].map(([name, { quote }]) => `${name} ${quote.n}/${quote.d}`);
  return [row.fingerprint, ...quotes].join(', ');
}
