/**
 * Ends holds: what was held is due again.
 */
import { minorUnits } from '../../domain/money/minor-units.ts';
import type { Entering } from '../../journal/chain.ts';
import type { HoldEndFact } from '../../journal/money-facts.ts';
import { holdPostings } from '../../journal/money-postings.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type HoldRow, insertHoldEnds } from '../../store/rows/money/hold-rows.ts';
import type { Context } from '../context.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import type { MoneyFrame } from './money-frame.ts';

export interface HoldsToEnd {
  readonly frame: MoneyFrame;
  readonly holds: readonly HoldRow[];
  /** By whoever placed them, or by what they waited for. */
  readonly ending: 'released' | 'decided';
}

/** The agreement must be locked. */
export async function endHolds(
  tx: Transaction,
  context: Context,
  { frame, holds, ending }: HoldsToEnd,
): Promise<void> {
  const ends = holds.map((hold) => {
    const fact: HoldEndFact = { hold: hold.id, ending, party: context.caller.partyId };
    return { id: context.newId(), fact, amount: minorUnits(hold.fact.amount, frame.money) };
  });
  await insertHoldEnds(tx, ends, frame.recorded);
  await enterFacts(
    tx,
    ends.map(
      ({ id, fact, amount }): Entering => ({
        kind: 'hold-end',
        fact,
        subjectId: id,
        postings: holdPostings(-amount, frame.money),
      }),
    ),
    frame.recorded,
  );
}
