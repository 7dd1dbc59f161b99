/**
 * What a settlement rests on is closed with it: a decision about a settled load would come too late.
 */
import type { Transaction } from '../../store/open-store.ts';
import { readSettlements } from '../../store/rows/settlement-rows.ts';
import { Refusal } from '../refusal.ts';

/** Refuses `already-settled` where one of the loads has been settled or refused. */
export async function refuseSettled(
  tx: Transaction,
  agreementId: string,
  loads: readonly { readonly loadId: string; readonly ticket: string }[],
): Promise<void> {
  const [settled] = await readSettlements(
    tx,
    agreementId,
    loads.map(({ loadId }) => loadId),
  );
  if (!settled) return;
  const ticket = loads.find(({ loadId }) => loadId === settled.loadId)?.ticket ?? '';
  throw new Refusal(
    'already-settled',
    `Load ${ticket} is ${settled.status} already, by what was known then. A decision about it comes too late.`,
  );
}
