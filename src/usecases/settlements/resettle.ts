/**
 * Settles loads anew from what stands now, after something that they rest on was put right: a later version of each
 * settlement, with the entry that takes the earlier one back and posts the new one. The agreement must be locked.
 */
import type { Outcome, Refused, Settled } from '../../domain/settlement/outcome.ts';
import { moneyOf, prepareSettlement } from '../../domain/settlement/settle-load.ts';
import { canonicalText } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type LoadRow, readLoads, readTickets, ticketKey } from '../../store/rows/load-rows.ts';
import { insertSettlements, readSettlements, type SettlementRow } from '../../store/rows/settlement-rows.ts';
import type { AgreedTerms, FoundAgreement } from '../agreements/find-agreement.ts';
import { type Context, stamp } from '../context.ts';
import { groupRows } from '../group-rows.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { deliveredLoad } from '../loads/load-fact.ts';
import { byTerms } from '../loads/load-views.ts';
import { Refusal } from '../refusal.ts';
import { gatherEvidence } from './gather-evidence.ts';
import { postingsOf, settlementEntering, settlementRow } from './settlement-row.ts';

/**
 * Returns how many settlements are new; one whose figures and grounds stay the same is not written again. Loads that
 * have not settled are passed over. Refuses `not-ready` where one could not be settled any more, with what it would
 * wait for.
 */
export async function resettle(
  tx: Transaction,
  context: Context,
  { found, loadIds }: { readonly found: FoundAgreement; readonly loadIds: readonly string[] },
): Promise<number> {
  const settled = groupRows(await readSettlements(tx, found.row.id, loadIds), ({ loadId }) => loadId);
  const loads = await readLoads(tx, found.row.id, [...settled.keys()]);
  let resettled = 0;
  for (const [terms, delivered] of byTerms(found, loads)) {
    const again = delivered.flatMap((load): Again[] => {
      const before = settled.get(load.id)?.at(-1);
      return before ? [{ load, before }] : [];
    });
    resettled += await resettleUnder(tx, context, { terms, again });
  }
  return resettled;
}

interface Again {
  readonly load: LoadRow;
  /** The settlement that stood until now. */
  readonly before: SettlementRow;
}

async function resettleUnder(
  tx: Transaction,
  context: Context,
  { terms, again }: { readonly terms: AgreedTerms; readonly again: readonly Again[] },
): Promise<number> {
  const { row, agreement } = terms;
  const loads = again.map(({ load }) => load);
  const gathered = await gatherEvidence(tx, terms, loads);
  const settle = prepareSettlement(agreement, gathered.evidence);
  const money = moneyOf(agreement);
  const recorded = { agreementId: row.id, recordedAt: stamp(context), recordedBy: context.caller.personId };
  const written = again.flatMap(({ load, before }) => {
    const outcome = decided(load, settle(deliveredLoad(load)));
    const settlement = settlementRow(outcome, {
      id: context.newId(),
      load,
      agreement: terms,
      gathered,
      money,
      version: before.version + 1,
      settledAt: recorded.recordedAt,
      settledBy: recorded.recordedBy,
    });
    return isSame(before, settlement) ? [] : [{ outcome, settlement, before }];
  });
  await insertSettlements(
    tx,
    row.id,
    written.map(({ settlement }) => settlement),
  );
  const tickets = await readTickets(
    tx,
    row.id,
    loads.map(({ id }) => id),
  );
  const facts = written.map(({ outcome, settlement, before }) => {
    const ticket = tickets.get(ticketKey(before.loadId, before.loadVersion));
    if (!ticket) throw new Error('A settlement rests on a ticket that is not there');
    return settlementEntering(settlement, outcome.load, postingsOf(before, deliveredLoad(ticket)));
  });
  await enterFacts(tx, facts, recorded);
  return written.length;
}

function decided({ ticket }: LoadRow, outcome: Outcome): Settled | Refused {
  if (outcome.status !== 'waiting') return outcome;
  throw new Refusal('not-ready', `Load ${ticket} could not be settled like that: ${outcome.detail}.`);
}

/** Whether nothing of a settlement would change but its own id, version and moment. */
function isSame(one: SettlementRow, other: SettlementRow): boolean {
  const grounds = ({ id: _, version: _v, settledAt: _at, settledBy: _by, ...rest }: SettlementRow) => rest;
  return canonicalText(grounds(one)) === canonicalText(grounds(other));
}
