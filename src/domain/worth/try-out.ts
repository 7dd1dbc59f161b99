/**
 * What a formula pays for feed that has not been grown yet: the agreement's own settlement, on a load with the figures
 * and prices that somebody wants to see, so that two people can look at a formula before they sign it.
 */
import type { Agreement, Reference } from '../agreement/document.ts';
import { CONSTITUENTS, TESTED, type Tested } from '../agreement/measures.ts';
import { parseLocalDate } from '../dates/local-date.ts';
import type { DeliveredLoad } from '../deliveries/delivered-load.ts';
import { add, compare, divide, type Exact, HUNDRED, powerOfTen, ZERO } from '../numbers/exact.ts';
import { type DistanceUnit, fromPounds, type ScaleUnit, toPounds } from '../quantities/units.ts';
import type { LabResult } from '../samples/lab-result.ts';
import { prepareRemainderCheck } from '../settlement/check-remainders.ts';
import { needed } from '../settlement/measured-load.ts';
import type { Settled } from '../settlement/outcome.ts';
import { moneyOf, prepareSettlement } from '../settlement/settle-load.ts';

export interface TrialLoad {
  readonly net: Exact;
  readonly unit: ScaleUnit;
  readonly distance: { readonly length: Exact; readonly unit: DistanceUnit } | undefined;
}

export interface TryOut {
  /** The quote of each reference that follows a series, by name, as a decimal string. */
  readonly quotes: ReadonlyMap<string, string>;
  readonly load: TrialLoad;
  /** What the prices are per. */
  readonly ton: 'short-ton' | 'tonne';
}

/** What a load comes to, in money and money per ton, or why there is no price for such feed. */
export type TriedPrice =
  | {
      readonly total: Exact;
      readonly perTonAsFed: Exact;
      readonly perTonDry: Exact;
      readonly impossible?: never;
    }
  | { readonly impossible: string };

/** Figures of the feed by measure, constituents in percent of dry matter; dry matter must be among them. */
export type TrialFigures = ReadonlyMap<Tested, Exact>;

/** The whole settlement of a tried load, its lines among it, or why there is none. */
export type TriedLoad = (Settled & { readonly impossible?: never }) | { readonly impossible: string };

/** A function from figures to what the agreement pays. Acceptance ranges are left out: they change no price. */
export function prepareTryOut(
  agreement: Agreement,
  { quotes, load, ton }: TryOut,
): (figures: TrialFigures) => TriedPrice {
  const tryLoad = prepareTriedLoad(agreement, { quotes, load });
  const { decimals } = moneyOf(agreement);
  return (figures) => {
    const tried = tryLoad(figures);
    if (tried.impossible !== undefined) return tried;
    const total: Exact = { n: tried.total, d: powerOfTen(decimals) };
    return {
      total,
      perTonAsFed: divide(total, fromPounds(tried.load.netPounds, ton)),
      perTonDry: divide(total, fromPounds(needed(tried.dryPounds, 'dry matter'), ton)),
    };
  };
}

/** A function from figures to the settlement, line by line, of a load that has them. */
export function prepareTriedLoad(
  agreement: Agreement,
  { quotes, load }: Omit<TryOut, 'ton'>,
): (figures: TrialFigures) => TriedLoad {
  const { acceptance: _, ...rest } = agreement;
  const priced: Agreement = { ...rest, references: fixReferences(agreement.references, quotes) };
  const negativeRemainders = prepareRemainderCheck(priced);
  const delivery = trialDelivery(load);
  let result: LabResult | undefined;
  const settle = prepareSettlement(priced, {
    results: { get: () => result },
    prices: new Map(),
    elections: new Map(),
    choices: new Map(),
  });
  return (figures) => {
    result = trialResult(figures);
    const impossible = whyImpossible(figures) ?? negativeRemainders(result)[0];
    if (impossible !== undefined) return { impossible };
    const outcome = settle(delivery);
    if (outcome.status === 'settled') return outcome;
    return { impossible: outcome.status === 'waiting' ? outcome.detail : 'refused' };
  };
}

/** The references as if their quote were fixed; a price that is fixed already stays. Basis, floor and ceiling still apply. */
function fixReferences(
  references: Agreement['references'],
  quotes: ReadonlyMap<string, string>,
): Record<string, Reference> {
  return Object.fromEntries(
    Object.entries(references).map(([name, reference]) => {
      const price = quotes.get(name);
      return [
        name,
        price === undefined || reference.rule.kind === 'fixed'
          ? reference
          : { ...reference, rule: { kind: 'fixed', price } as const },
      ];
    }),
  );
}

function trialResult(figures: TrialFigures): LabResult {
  const reported = TESTED.filter((measure) => measure !== 'dry-matter');
  return {
    sample: 'tried',
    basis: 'dry-matter',
    dryMatter: needed(figures.get('dry-matter'), 'dry matter'),
    reported,
    figures: reported.map((measure) => figures.get(measure)),
  };
}

/** Any date serves, since no quote is looked up. */
const TRIAL_DATE = needed(parseLocalDate('2000-01-01'), 'date');

function trialDelivery({ net, unit, distance }: TrialLoad): DeliveredLoad {
  return {
    ticket: 'tried',
    deliveredAt: 0,
    deliveredOn: TRIAL_DATE,
    unit,
    gross: net,
    tare: ZERO,
    net,
    netPounds: toPounds(net, unit),
    sample: 'tried',
    ...(distance ? { distance } : {}),
  };
}

function whyImpossible(figures: TrialFigures): string | undefined {
  const of = (measure: Tested) => figures.get(measure) ?? ZERO;
  if (compare(of('dry-matter'), ZERO) <= 0 || compare(of('dry-matter'), HUNDRED) > 0) {
    return 'dry matter must be above 0 and at most 100 %';
  }
  if (CONSTITUENTS.some((measure) => compare(of(measure), ZERO) < 0)) return 'a part cannot be below 0 %';
  if (compare(add(of('starch'), of('ndf')), HUNDRED) > 0)
    return 'starch and NDF together pass 100 % of dry matter';
  if (figures.has('ndf') && compare(of('adf'), of('ndf')) > 0) return 'ADF is above NDF, which holds it';
  return undefined;
}
