/**
 * What loads would have come to by the quote of another day, by another test result, or by the weight as fed: so that a
 * difference between two lists can be laid to the slip that it comes from.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { DeliveredLoad } from '../../domain/deliveries/delivered-load.ts';
import type { AlternativeAmount, PricedOtherwise } from '../../domain/matching/list-row.ts';
import { HUNDRED } from '../../domain/numbers/exact.ts';
import { type LabResult, onDryMatter } from '../../domain/samples/lab-result.ts';
import { sampleOf } from '../../domain/samples/sampling-plan.ts';
import { printAmount } from '../../domain/settlement/line.ts';
import { type Evidence, moneyOf, prepareSettlement } from '../../domain/settlement/settle-load.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { LoadRow } from '../../store/rows/load-rows.ts';
import type { AgreedTerms, FoundAgreement } from '../agreements/find-agreement.ts';
import { deliveredLoad } from '../loads/load-fact.ts';
import { byTerms } from '../loads/load-views.ts';
import { gatherEvidence } from '../settlements/gather-evidence.ts';

type Otherwise = Required<Pick<PricedOtherwise, 'byDay' | 'alternatives'>>;
type Settle = (load: DeliveredLoad) => string | undefined;

export interface LoadsToPrice {
  /** All loads of the agreement that count: their results are the other tests. */
  readonly loads: readonly LoadRow[];
  /** Ids of those that are priced. */
  readonly wanted: ReadonlySet<string>;
}

/** By load, each under the version that it was delivered under. Figures that would leave it waiting give no amount. */
export async function pricedOtherwise(
  tx: Transaction,
  found: FoundAgreement,
  { loads, wanted }: LoadsToPrice,
): Promise<ReadonlyMap<string, Otherwise>> {
  const priced = new Map<string, Otherwise>();
  for (const [terms, under] of byTerms(found, loads)) {
    const those = under.filter(({ id }) => wanted.has(id));
    if (those.length === 0) continue;
    const { evidence: known, results } = await gatherEvidence(tx, terms, under);
    // Whoever took the wrong figure took no notice of the agreed ranges either.
    const choices = new Map(those.map(({ ticket }) => [ticket, 'accept' as const]));
    const evidence = { ...known, choices };
    const delivered = those.map((row) => ({ row, load: asSampled(deliveredLoad(row), terms) }));
    const tickets = those.map(({ ticket }) => ticket);
    const byDay = daysOf(evidence).map((day) => ({
      day,
      settle: settleOn(day, { terms, evidence, tickets }),
    }));
    const asDelivered = settleBy(terms, evidence);
    const asFed = settleBy(terms, { ...evidence, results: { get: (name) => asFedResult(evidence, name) } });
    for (const { row, load } of delivered) {
      const days = byDay.flatMap(({ day, settle }) => {
        const amount = day === load.deliveredOn ? undefined : settle({ ...load, deliveredOn: day });
        return amount === undefined ? [] : [[day, amount] as const];
      });
      const others = [...results.keys()].filter((sample) => sample !== load.sample);
      priced.set(row.id, {
        byDay: Object.fromEntries(days),
        alternatives: [
          ...alternative('as-fed-for-dry', 'no water taken off', asFed(load)),
          ...others.flatMap((sample) =>
            alternative('other-test', `sample ${sample}`, asDelivered({ ...load, sample })),
          ),
        ],
      });
    }
  }
  return priced;
}

/** With its sample named, so that another day gives it no other one. */
function asSampled(load: DeliveredLoad, { agreement }: AgreedTerms): DeliveredLoad {
  const sample = sampleOf(load, agreement);
  return sample === undefined ? load : { ...load, sample };
}

function daysOf({ prices }: Evidence): readonly LocalDate[] {
  return [...new Set([...prices.values()].flatMap((series) => series.map(({ date }) => date)))].sort();
}

function settleBy({ agreement }: AgreedTerms, evidence: Evidence): Settle {
  const money = moneyOf(agreement);
  const settle = prepareSettlement(agreement, evidence);
  return (load) => {
    const outcome = settle(load);
    return outcome.status === 'settled' ? printAmount(outcome.total, money) : undefined;
  };
}

/** By the quotes of a day: as if it were that of the delivery, and the one that the seller named. */
function settleOn(
  day: LocalDate,
  {
    terms,
    evidence,
    tickets,
  }: { readonly terms: AgreedTerms; readonly evidence: Evidence; readonly tickets: readonly string[] },
): Settle {
  const named = new Map([...evidence.prices.keys()].map((series) => [series, day] as const));
  return settleBy(terms, { ...evidence, elections: new Map(tickets.map((ticket) => [ticket, named])) });
}

/** A result as if all of the weight were dry matter, each constituent the same share of it. */
function asFedResult({ results }: Evidence, name: string): LabResult | undefined {
  const result = results.get(name);
  return (
    result && {
      ...result,
      basis: 'dry-matter',
      dryMatter: HUNDRED,
      figures: result.reported.map((measure) => onDryMatter(result, measure)),
    }
  );
}

function alternative(
  because: AlternativeAmount['because'],
  name: string,
  amount: string | undefined,
): AlternativeAmount[] {
  return amount === undefined ? [] : [{ because, name, amount }];
}
