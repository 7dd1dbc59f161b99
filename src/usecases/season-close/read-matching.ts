/**
 * A party's own list matched with the record: how every row of both ends, and how many of each.
 */

import type { ListRow, PricedOtherwise } from '../../domain/matching/list-row.ts';
import {
  countStandings,
  matchLists,
  type Outcome,
  type Standing,
  standingsOf,
} from '../../domain/matching/match-lists.ts';
import type { OwnRow } from '../../domain/matching/own-row.ts';
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import { readOwnList } from '../../store/rows/own-list-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { pricedOtherwise } from './priced-otherwise.ts';
import { recordList } from './record-list.ts';

/** In the order in which they are told. */
export const STANDINGS: readonly Standing[] = [
  'agrees',
  'weight-differs',
  'date-differs',
  'amount-differs',
  'test-differs',
  'ticket-differs',
  'only-in-mine',
  'only-in-record',
  'twice',
];

export interface MatchingView {
  readonly currency: string;
  readonly fileName: string;
  /** ISO 8601, UTC. */
  readonly broughtAt: string;
  readonly ownRows: number;
  readonly recordRows: number;
  /** A pair may differ in several respects, and counts in each. */
  readonly counts: Readonly<Record<Standing, number>>;
  /** All that does not agree. */
  readonly open: readonly Outcome[];
}

/** Enough to tell what went wrong again and again; the others are told without these causes. */
const MOST_PRICED = 100;

/** The load of a pair whose amounts differ for no reason that was found. */
function unexplainedAmount(outcome: Outcome): readonly string[] {
  if (outcome.kind !== 'pair') return [];
  const isUnexplained = outcome.differences.some(
    ({ aspect, causes }) => aspect === 'amount' && causes.length === 0,
  );
  return isUnexplained ? [outcome.record.id] : [];
}

function withPriced(row: ListRow, otherwise: PricedOtherwise | undefined): ListRow {
  return otherwise ? { ...row, priced: { ...row.priced, ...otherwise } } : row;
}

/** Undefined where the party has brought no list. Refuses `not-allowed`, `not-found`, `not-yours`. */
export async function readMatching(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<MatchingView | undefined> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const own = await readOwnList(tx, { agreementId, kind: 'own-loads' });
    if (!own) return undefined;
    const mine = JSON.parse(own.rows) as readonly OwnRow[];
    const { rows: record, loads } = await recordList(tx, found);
    const { currency, decimals } = moneyOf(found.agreement);
    const first = matchLists({ mine, record }, { decimals });
    // Other prices take a while to work out and are needed by few rows; they change no pair.
    const wanted = new Set(first.flatMap(unexplainedAmount).slice(0, MOST_PRICED));
    const priced = await pricedOtherwise(tx, found, { loads, wanted });
    const outcomes =
      priced.size === 0
        ? first
        : matchLists(
            { mine, record: record.map((row) => withPriced(row, priced.get(row.id))) },
            { decimals },
          );
    return {
      currency,
      fileName: own.fileName,
      broughtAt: own.recordedAt,
      ownRows: mine.length,
      recordRows: record.length,
      counts: countStandings(STANDINGS, outcomes),
      open: outcomes.filter((outcome) => !standingsOf(outcome).includes('agrees')),
    };
  });
}
