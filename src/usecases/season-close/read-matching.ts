/**
 * A party's own list matched with the record: how every row of both ends, and how many of each.
 */

import type { ListRow, PricedOtherwise } from '../../domain/matching/list-row.ts';
import {
  countStandings,
  matchLists,
  type Outcome,
  type Standing,
} from '../../domain/matching/match-lists.ts';
import type { OwnRow } from '../../domain/matching/own-row.ts';
import { moneyOf } from '../../domain/settlement/settle-load.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type OwnListRow, readOwnList } from '../../store/rows/own-list-rows.ts';
import { type FoundAgreement, findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Caller, type Context, permit } from '../context.ts';
import { type Noted, partNoted } from './noted-outcomes.ts';
import { type Marked, partOutcomes } from './part-outcomes.ts';
import { pricedOtherwise } from './priced-otherwise.ts';
import { type RecordList, recordList } from './record-list.ts';
import { seasonNotesOf } from './season-notes.ts';

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

export interface MatchingView extends Noted {
  readonly currency: string;
  readonly fileName: string;
  /** ISO 8601, UTC. */
  readonly broughtAt: string;
  readonly ownRows: number;
  readonly recordRows: number;
  /** A pair may differ in several respects, and counts in each; what is accepted, or left standing by both, counts in none. */
  readonly counts: Readonly<Record<Standing, number>>;
  /** What does not agree, and for which the party accepts the record. */
  readonly accepted: readonly Marked<Outcome>[];
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

export interface MatchedLoads {
  readonly own: OwnListRow;
  readonly mine: readonly OwnRow[];
  readonly record: RecordList;
  readonly outcomes: readonly Outcome[];
}

/** The caller's own list of loads matched with the record, without other prices; undefined where there is no list. */
export async function matchOwnLoads(
  tx: Transaction,
  found: FoundAgreement,
  { partyId }: Caller,
): Promise<MatchedLoads | undefined> {
  const own = await readOwnList(tx, { agreementId: found.row.id, kind: 'own-loads', partyId });
  if (!own) return undefined;
  const mine = JSON.parse(own.rows) as readonly OwnRow[];
  const record = await recordList(tx, found);
  const { decimals } = moneyOf(found.agreement);
  return { own, mine, record, outcomes: matchLists({ mine, record: record.rows }, { decimals }) };
}

/** Undefined where the party has brought no list. Refuses `not-allowed`, `not-found`, `not-yours`. */
export async function readMatching(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<MatchingView | undefined> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    const matched = await matchOwnLoads(tx, found, context.caller);
    if (!matched) return undefined;
    const { own, mine, record, outcomes: first } = matched;
    const { currency, decimals } = moneyOf(found.agreement);
    // Other prices take a while to work out and are needed by few rows; they change no pair.
    const wanted = new Set(first.flatMap(unexplainedAmount).slice(0, MOST_PRICED));
    const priced = await pricedOtherwise(tx, found, { loads: record.loads, wanted });
    const outcomes =
      priced.size === 0
        ? first
        : matchLists(
            { mine, record: record.rows.map((row) => withPriced(row, priced.get(row.id))) },
            { decimals },
          );
    const { counted, open, accepted } = await partOutcomes(tx, own, outcomes);
    const notes = await seasonNotesOf(tx, found, context.caller);
    const noted = partNoted(open, { notes, decimals });
    const settled = new Set<Outcome>(noted.left);
    return {
      currency,
      fileName: own.fileName,
      broughtAt: own.recordedAt,
      ownRows: mine.length,
      recordRows: record.rows.length,
      counts: countStandings(
        STANDINGS,
        counted.filter((outcome) => !settled.has(outcome)),
      ),
      ...noted,
      accepted,
    };
  });
}
