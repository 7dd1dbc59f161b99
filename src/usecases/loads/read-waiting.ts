/**
 * What waits, and for whom: loads without a settlement, by what they wait for, oldest first.
 */
import type { WaitingReason } from '../../domain/settlement/outcome.ts';
import { readAgreements } from '../../store/rows/agreement-rows.ts';
import { readUnsettledLoads } from '../../store/rows/load-rows.ts';
import { sideOf, withVersions } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { outcomesOf } from './load-views.ts';

export interface WaitingGroup {
  readonly agreementId: string;
  readonly agreementNumber: string;
  /** The other party's name. */
  readonly partner: string;
  /** What they wait for; `ready` for those that can be settled or refused now. */
  readonly what: WaitingReason | 'ready';
  readonly loads: number;
  readonly oldestId: string;
  /** Whole days since the oldest was delivered. */
  readonly days: number;
  /** Whether the caller's party can end the wait. */
  readonly yours: boolean;
}

const DAY = 86_400_000;

/** Groups in order of age. Refuses `not-allowed`. */
export async function readWaiting(context: Context): Promise<readonly WaitingGroup[]> {
  permit(context, 'read');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    const groups = new Map<string, WaitingGroup & { readonly oldest: number }>();
    for (const row of await readAgreements(tx)) {
      // Nothing waits for an adviser, and nothing goes on in a sealed season.
      if (row.isSealed || sideOf(row, context.caller) === 'adviser') continue;
      const loads = await readUnsettledLoads(tx, row.id);
      if (loads.length === 0) continue;
      const found = await withVersions(tx, row);
      const isSeller = row.sellerId === partyId;
      for (const { row: load, outcome } of await outcomesOf(tx, found, loads)) {
        const what = outcome.status === 'waiting' ? outcome.reason : 'ready';
        const key = `${row.id} ${what}`;
        const before = groups.get(key);
        // Loads come in the order in which they were delivered.
        const oldest = before?.oldest ?? load.deliveredAt;
        groups.set(key, {
          agreementId: row.id,
          agreementNumber: row.number,
          partner: isSeller ? row.buyerName : row.sellerName,
          what,
          loads: (before?.loads ?? 0) + 1,
          oldestId: before?.oldestId ?? load.id,
          days: Math.max(0, Math.floor((context.now() - oldest) / DAY)),
          yours: isYours(what, isSeller),
          oldest,
        });
      }
    }
    const inOrder = [...groups.values()].sort((a, b) => a.oldest - b.oldest);
    return inOrder.map(({ oldest: _, ...group }) => group);
  });
}

/** Who ends a wait: the buyer chooses, the seller names dates, either records what came in; a month ends by itself. */
function isYours(what: WaitingGroup['what'], isSeller: boolean): boolean {
  switch (what) {
    case 'choice-needed':
    case 'refusal-contested':
      return !isSeller;
    case 'not-elected':
      return isSeller;
    case 'month-open':
      return false;
    case 'no-result':
    case 'no-quote':
    case 'outside-table':
    case 'ready':
      return true;
  }
}
