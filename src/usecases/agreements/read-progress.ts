/**
 * How far an agreement has come, for a page: its deliveries gathered, and told with every figure as the reader writes it.
 */
import { figuresFor } from '../../documents/figures.ts';
import { zoneCalendar } from '../../domain/dates/instant.ts';
import type { CountedLoad } from '../../domain/progress/progress.ts';
import { testRules } from '../../domain/samples/lab-result.ts';
import { readDeliveredLoads } from '../../store/rows/progress-rows.ts';
import { type Context, permit } from '../context.ts';
import { type LoadOutcome, outcomesOf } from '../loads/load-views.ts';
import { findAgreement } from './find-agreement.ts';
import { type ProgressView, progressView } from './progress-view.ts';

/** Refuses `not-allowed`, and `not-found` for an agreement of others. */
export async function readProgress(
  context: Context,
  { agreementId, locale }: { readonly agreementId: string; readonly locale: string },
): Promise<ProgressView> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findAgreement(tx, agreementId);
    const outcomes = await outcomesOf(tx, found, await readDeliveredLoads(tx, agreementId));
    // A refused load is no delivery, whatever it weighed.
    const kept = outcomes.filter(({ outcome }) => outcome.status !== 'refused');
    const { wallClockAt } = zoneCalendar(found.agreement.timeZone);
    return progressView(found, {
      counted: kept.map((one) => countedLoad(one, wallClockAt)),
      refused: outcomes.length - kept.length,
      figures: figuresFor(locale),
    });
  });
}

/** A load as it counts among the deliveries; its value once it has settled. */
export function countedLoad(
  { terms, outcome, settlements }: LoadOutcome,
  wallClockAt: (instant: number) => string,
): CountedLoad {
  const isSettled = settlements.length > 0 && outcome.status === 'settled';
  return {
    load: outcome.load,
    result: outcome.result,
    rules: testRules(terms.agreement),
    deliveredAt: wallClockAt(outcome.load.deliveredAt),
    value: isSettled ? outcome.total : undefined,
  };
}
