/**
 * Deliveries of an agreement that are on no invoice yet: settled ones, and those that wait with what they are thought to
 * be worth.
 */
import { conditionsOf } from '../../domain/agreement/conditions.ts';
import { minorUnits } from '../../domain/money/minor-units.ts';
import { valueByNewestQuote, valueByRate } from '../../domain/settlement/provisional.ts';
import type { Transaction } from '../../store/open-store.ts';
import { claimLoads, type LoadClaim } from './claim-loads.ts';
import { type WaitingLoad, waitingLoads } from './give-advances.ts';
import type { MoneyFrame } from './money-frame.ts';

export interface NotInvoicedSums {
  /** Loads that have settled, or settled anew, and what they bring, deductions off; minor units. */
  readonly settledLoads: number;
  readonly settled: bigint;
  readonly unpricedLoads: number;
  /** Of those, how many could be valued, and at what. */
  readonly valuedLoads: number;
  readonly provisional: bigint;
  /** Advances invoiced for loads in either of these. */
  readonly advances: bigint;
}

/** The loads that are on no invoice yet. */
export interface Pending {
  readonly claims: readonly LoadClaim[];
  readonly waiting: readonly WaitingLoad[];
}

/** Nothing of a sealed season: it takes no invoice, and what was open of it is carried over. */
export async function readPending(tx: Transaction, frame: MoneyFrame): Promise<Pending> {
  if (frame.found.row.isSealed) return { claims: [], waiting: [] };
  return { claims: (await claimLoads(tx, frame)).claims, waiting: await waitingLoads(tx, frame) };
}

export function notInvoiced({ claims, waiting }: Pending, frame: MoneyFrame): NotInvoicedSums {
  const values = waiting.flatMap((load) => provisionalValue(load, frame) ?? []);
  const documents = frame.found.row.isSealed ? [] : frame.rows.documents;
  const advances = documents
    .flatMap(({ fact }) => fact.loads)
    .reduce((sum, { advance }) => sum - minorUnits(advance, frame.money), 0n);
  return {
    settledLoads: claims.length,
    settled: claims.reduce((sum, { goods, deducted }) => sum + goods - deducted, 0n),
    unpricedLoads: waiting.length,
    valuedLoads: values.length,
    provisional: values.reduce((sum, value) => sum + value, 0n),
    advances,
  };
}

/** What a waiting load is thought to come to, in minor units; undefined where nothing says so. */
function provisionalValue(
  { terms: { agreement }, waiting, evidence }: WaitingLoad,
  { money }: Pick<MoneyFrame, 'money'>,
): bigint | undefined {
  const value = valueByNewestQuote(waiting, { agreement, evidence });
  if (value !== undefined) return value;
  const advance = conditionsOf(agreement)?.advance;
  return advance && valueByRate(waiting, advance, money).amount;
}
