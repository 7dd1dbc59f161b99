/**
 * Contests a quote that the other side entered: another price is proposed to it, and takes effect when it confirms.
 */

import { zoneCalendar } from '../../domain/dates/instant.ts';
import { contestedUntil, mayEnter } from '../../domain/prices/series-terms.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readQuoteTimes } from '../../store/rows/series-rows.ts';
import { findOwnAgreement, isId, sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { enterProposal } from '../corrections/agree-correction.ts';
import { newestQuote } from '../corrections/put-right.ts';
import { doOnce } from '../do-once.ts';
import { Refusal } from '../refusal.ts';
import { standingTerms, termsBySeries } from './series-terms.ts';

export interface QuoteToContest {
  readonly agreementId: string;
  /** The quote as it stands now. */
  readonly quoteId: string;
  /** What it should be. */
  readonly price: string;
  readonly reason: string;
  readonly key?: string;
}

/**
 * Returns the correction that the other side now confirms or refuses, and how many settled loads it would move. Refuses
 * `not-allowed`, `bad-input`, `not-found`, `changed-meanwhile`, `not-yours` where the caller's side enters the quotes
 * itself, `correction-over` once the days to contest are over, `correction-open` while one is open, `not-ready` where a
 * load could not settle anew.
 */
export async function contestQuote(
  context: Context,
  { agreementId, quoteId, price, reason, key }: QuoteToContest,
): Promise<{ readonly correctionId: string; readonly loads: number }> {
  permit(context, 'correct');
  const input = { agreementId, price, reason };
  return await doOnce(context, { verb: 'contest-quote', subject: quoteId, key, input }, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    if (!isId(quoteId)) throw new Refusal('not-found', 'There is no such quote.');
    await lockAgreement(tx, agreementId);
    const quote = await newestQuote(tx, agreementId, quoteId);
    const terms = standingTerms((await termsBySeries(tx, agreementId)).get(quote.series));
    const side = sideOf(found.row, context.caller);
    if (side === 'adviser' || mayEnter(terms, side)) {
      throw new Refusal(
        'not-yours',
        'Your side enters these quotes. Put this one right, or propose a correction where loads have settled from it.',
      );
    }
    const entered = (await readQuoteTimes(tx, agreementId, quote.seriesId)).get(quoteId) ?? 0;
    const until = contestedUntil(terms, entered);
    if (context.now() > until) {
      const day = zoneCalendar(found.agreement.timeZone).dateAt(until);
      throw new Refusal(
        'correction-over',
        `The time to contest this quote ended on ${day}. Where loads have settled from it, propose a correction.`,
      );
    }
    return await enterProposal(tx, context, {
      found,
      asked: {
        subject: 'quote',
        subjectId: quoteId,
        figures: { price: price.trim() },
        reason,
        isContest: true,
      },
    });
  });
}
