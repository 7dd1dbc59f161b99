/**
 * Loads of one agreement as pages show them: settled ones by what they were settled from, the others by what is known
 * today.
 */

import type { LoadSetting } from '../../documents/invoice/describe-load.ts';
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { testRules } from '../../domain/samples/lab-result.ts';
import { sampleOf } from '../../domain/samples/sampling-plan.ts';
import type { Outcome } from '../../domain/settlement/outcome.ts';
import { moneyOf, prepareSettlement } from '../../domain/settlement/settle-load.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { LoadRow } from '../../store/rows/load-rows.ts';
import type { ChoiceRow, ElectionRow } from '../../store/rows/quote-rows.ts';
import type { ResultRow } from '../../store/rows/result-rows.ts';
import { readSettlements, type SettlementRow } from '../../store/rows/settlement-rows.ts';
import { type AgreedTerms, type FoundAgreement, termsOn } from '../agreements/find-agreement.ts';
import { groupRows } from '../group-rows.ts';
import { gatherEvidence } from '../settlements/gather-evidence.ts';
import { quotesOf, recompute } from '../settlements/recompute.ts';
import { deliveredLoad } from './load-fact.ts';

export interface LoadOutcome {
  readonly row: LoadRow;
  /** The version that it was delivered under. */
  readonly terms: AgreedTerms;
  readonly outcome: Outcome;
  /** Every version, oldest first; none while the load waits. */
  readonly settlements: readonly SettlementRow[];
  /** What is recorded of its sample, and was decided about it, in order. */
  readonly result: ResultRow | undefined;
  readonly elections: readonly ElectionRow[];
  readonly choices: readonly ChoiceRow[];
}

/** What became of each load, in their order. Those without a settlement are worked out from what is known now. */
export async function outcomesOf(
  tx: Transaction,
  found: FoundAgreement,
  loads: readonly LoadRow[],
): Promise<readonly LoadOutcome[]> {
  const outcomes = new Map<string, LoadOutcome>();
  for (const [terms, delivered] of byTerms(found, loads)) {
    for (const outcome of await outcomesUnder(tx, terms, delivered)) outcomes.set(outcome.row.id, outcome);
  }
  return loads.flatMap(({ id }) => outcomes.get(id) ?? []);
}

/** Loads by the version that each was delivered under, in their order. */
export function byTerms(
  found: FoundAgreement,
  loads: readonly LoadRow[],
): ReadonlyMap<AgreedTerms, readonly LoadRow[]> {
  return groupRows(loads, ({ deliveredOn }) => termsOn(found, deliveredOn));
}

async function outcomesUnder(
  tx: Transaction,
  terms: AgreedTerms,
  loads: readonly LoadRow[],
): Promise<readonly LoadOutcome[]> {
  const { row, agreement } = terms;
  const ids = loads.map(({ id }) => id);
  const settlements = groupRows(await readSettlements(tx, row.id, ids), ({ loadId }) => loadId);
  const gathered = await gatherEvidence(tx, terms, loads);
  const settle = prepareSettlement(agreement, gathered.evidence);
  const elections = groupRows(gathered.elections, ({ loadId }) => loadId);
  const choices = groupRows(gathered.choices, ({ loadId }) => loadId);
  return loads.map((load) => {
    const versions = settlements.get(load.id) ?? [];
    const current = versions.at(-1);
    const delivered = deliveredLoad(load);
    const known = {
      row: load,
      terms,
      settlements: versions,
      result: gathered.results.get(sampleOf(delivered, agreement) ?? ''),
      elections: elections.get(load.id) ?? [],
      choices: choices.get(load.id) ?? [],
    };
    if (!current) return { ...known, outcome: settle(delivered) };
    const outcome = recompute({
      agreement,
      load,
      result: current.resultId === null ? undefined : gathered.everyResult.get(current.resultId),
      elections: known.elections,
      choice: known.choices.at(-1),
      quotes: quotesOf(current, gathered.everyQuote),
      allowance: gathered.allowances.find(({ loadId }) => loadId === load.id),
    });
    return { ...known, outcome };
  });
}

/** How the loads of an agreement are told, beside one another. */
export function loadSetting(
  { agreement }: AgreedTerms,
  { heaviest, figures }: Pick<LoadSetting, 'heaviest' | 'figures'>,
): LoadSetting {
  return {
    agreement,
    money: moneyOf(agreement),
    figures,
    calendar: zoneCalendar(agreement.timeZone),
    rules: testRules(agreement),
    heaviest,
  };
}
