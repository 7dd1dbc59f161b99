/**
 * While a question is open, the difference between the two sides' figures is held as far as it is invoiced and open; the
 * rest stays due. The agreement must be locked.
 */
import type { Transaction } from '../../store/open-store.ts';
import { readRetestRows } from '../../store/rows/retest-rows.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { endHolds } from '../money/end-holds.ts';
import { enterHolds } from '../money/hold-amount.ts';
import { holdFacts, notesToCome } from '../money/hold-disputed.ts';
import { frameOf } from '../money/money-frame.ts';
import { liveHolds } from '../money/money-rows.ts';
import { settledLoadsOf, tryOutFigure } from './put-figure.ts';

/** Holds what is in question of loads that were invoiced, also where that was after the question was asked. */
export async function holdQuestioned(
  tx: Transaction,
  context: Context,
  found: FoundAgreement,
): Promise<void> {
  const { questions, endings } = await readRetestRows(tx, [found.row.id]);
  const over = new Set(endings.map(({ fact }) => fact.retest));
  for (const question of questions) {
    if (over.has(question.id)) continue;
    const frame = await frameOf(tx, context, found);
    const held = new Set(
      liveHolds(frame.rows).flatMap(({ fact }) => (fact.retest === question.id ? (fact.load ?? []) : [])),
    );
    const loadIds = (await settledLoadsOf(tx, { found, question })).filter((id) => !held.has(id));
    if (loadIds.length === 0) continue;
    const tried = await tryOutFigure(tx, context, {
      found,
      question,
      value: question.fact.claimed,
      reason: question.fact.reason,
      look: async () => await notesToCome(tx, context, { found, loadIds }),
    });
    if ('obstacle' in tried) continue;
    const facts = holdFacts(frame, tried.seen, {
      reason: question.fact.reason,
      party: question.fact.party,
      correction: null,
      retest: question.id,
    });
    await enterHolds(tx, context, { frame, facts });
  }
}

/** Ends what a question held. */
export async function endQuestioned(
  tx: Transaction,
  context: Context,
  { found, retestId }: { readonly found: FoundAgreement; readonly retestId: string },
): Promise<void> {
  const frame = await frameOf(tx, context, found);
  const holds = liveHolds(frame.rows).filter(({ fact }) => fact.retest === retestId);
  await endHolds(tx, context, { frame, holds, ending: 'decided' });
}
