/**
 * Settles loads and posts them: those that are named, or all of an agreement that are ready.
 */

import type { Outcome, Refused, Settled } from '../../domain/settlement/outcome.ts';
import { moneyOf, prepareSettlement } from '../../domain/settlement/settle-load.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { type LoadRow, readLoads, readUnsettledLoads } from '../../store/rows/load-rows.ts';
import { insertSettlements, readSettlements } from '../../store/rows/settlement-rows.ts';
import {
  type AgreedTerms,
  type FoundAgreement,
  findOwnAgreement,
  isId,
} from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { deliveredLoad } from '../loads/load-fact.ts';
import { byTerms } from '../loads/load-views.ts';
import { Refusal } from '../refusal.ts';
import { gatherEvidence } from './gather-evidence.ts';
import { settlementEntering, settlementRow } from './settlement-row.ts';

export interface LoadsToSettle {
  readonly agreementId: string;
  /** One load; without it, all that are ready. */
  readonly loadId?: string;
  readonly key?: string;
}

export interface SettledLoads {
  readonly settled: number;
  readonly refused: number;
  /** Loads that are not ready. */
  readonly waiting: number;
}

/**
 * Settles in one transaction. A load that is settled already stays as it is, so that settling twice, or in parallel,
 * gives one settlement. Refuses `not-allowed`, `not-found`, and for one named load `not-ready` with what it waits for.
 */
export async function settleLoads(
  context: Context,
  { agreementId, loadId, key }: LoadsToSettle,
): Promise<SettledLoads> {
  permit(context, 'settle');
  const asked = {
    verb: 'settle',
    subject: loadId ?? agreementId,
    key,
    input: { agreementId, loadId: loadId ?? null },
  };
  const settled = await doOnce(context, asked, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    await lockAgreement(tx, agreementId);
    if (loadId === undefined)
      return await settleAll(tx, context, found, await readUnsettledLoads(tx, agreementId));
    const [load] = isId(loadId) ? await readLoads(tx, agreementId, [loadId]) : [];
    if (!load) throw new Refusal('not-found', 'There is no such load.');
    const current = (await readSettlements(tx, agreementId, [loadId])).at(-1);
    if (current) {
      const settled = current.status === 'settled' ? 1 : 0;
      return { settled, refused: 1 - settled, waiting: 0 };
    }
    return await settleAll(tx, context, found, [load], (outcome) => {
      if (outcome.status === 'waiting') {
        throw new Refusal('not-ready', `Load ${load.ticket} is not ready: ${outcome.detail}.`);
      }
    });
  });
  if (settled.settled >= MANY) await context.store.refreshStatistics();
  return settled;
}

/** After so many the tables are not what the last count of them says. */
const MANY = 500;

async function settleAll(
  tx: Transaction,
  context: Context,
  found: FoundAgreement,
  loads: readonly LoadRow[],
  look: (outcome: Outcome) => void = () => {},
): Promise<SettledLoads> {
  const sum = { settled: 0, refused: 0, waiting: 0 };
  for (const [terms, delivered] of byTerms(found, loads)) {
    const { settled, refused, waiting } = await settleUnder(tx, context, { terms, loads: delivered, look });
    sum.settled += settled;
    sum.refused += refused;
    sum.waiting += waiting;
  }
  return sum;
}

interface UnderTerms {
  readonly terms: AgreedTerms;
  readonly loads: readonly LoadRow[];
  readonly look: (outcome: Outcome) => void;
}

async function settleUnder(
  tx: Transaction,
  context: Context,
  { terms, loads, look }: UnderTerms,
): Promise<SettledLoads> {
  const { row, agreement } = terms;
  const gathered = await gatherEvidence(tx, terms, loads);
  const settle = prepareSettlement(agreement, gathered.evidence);
  const decided: { load: LoadRow; outcome: Settled | Refused }[] = [];
  for (const load of loads) {
    const outcome = settle(deliveredLoad(load));
    look(outcome);
    if (outcome.status !== 'waiting') decided.push({ load, outcome });
  }
  const money = moneyOf(agreement);
  const settledAt = stamp(context);
  const settledBy = context.caller.personId;
  const written = decided.map(({ load, outcome }) => ({
    outcome,
    settlement: settlementRow(outcome, {
      id: context.newId(),
      load,
      agreement: terms,
      gathered,
      money,
      version: 1,
      settledAt,
      settledBy,
    }),
  }));
  await insertSettlements(
    tx,
    row.id,
    written.map(({ settlement }) => settlement),
  );
  await enterFacts(
    tx,
    written.map(({ outcome, settlement }) => settlementEntering(settlement, outcome.load)),
    { agreementId: row.id, recordedAt: settledAt, recordedBy: settledBy },
  );
  const settled = decided.filter(({ outcome }) => outcome.status === 'settled').length;
  return { settled, refused: decided.length - settled, waiting: loads.length - decided.length };
}
