/**
 * Puts a result or a quote right while nothing has settled from it: a new version with its reason.
 */
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readSettledUpon } from '../../store/rows/correction-rows.ts';
import { findOwnAgreement, isId } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { refuseOthersSeries } from '../prices/series-terms.ts';
import type { InputRow } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { refuseQuestioned } from '../retests/refuse-questioned.ts';
import { newestQuote, newestResult, putQuoteRight, putResultRight } from './put-right.ts';
import { readReason } from './read-reason.ts';

export interface RecordedToCorrect {
  readonly agreementId: string;
  /** The id of the result or quote that stands now. */
  readonly id: string;
  /** The columns of `samples.csv` or `prices.csv`, as they should be. */
  readonly figures: InputRow;
  readonly reason: string;
  readonly key?: string;
  readonly confirmed?: boolean;
}

/**
 * Refuses `not-allowed`, `bad-input`, `not-found`, `not-yours` for a result that the other party entered (it is theirs
 * to put right; ours to contest), `changed-meanwhile`, `already-settled` where loads have settled from it, `unusual`.
 */
export async function correctResult(
  context: Context,
  asked: RecordedToCorrect,
): Promise<{ readonly corrected: true }> {
  return await correctRecorded(context, asked, 'correct-result', async (tx, toPutRight) => {
    const { enteredBy, sample, sampleId } = await newestResult(tx, asked.id);
    if (enteredBy !== null && enteredBy !== context.caller.partyId) {
      throw new Refusal(
        'not-yours',
        `Your side did not enter the result of sample ${sample}. Contest it, and whoever did puts it right.`,
      );
    }
    await refuseQuestioned(tx, asked.agreementId, { sampleId });
    await refuseSettledUpon(tx, asked.agreementId, { resultId: asked.id });
    await putResultRight(tx, context, toPutRight);
  });
}

/** Refuses as `correctResult`; `not-yours` for a quote of a series that the other side alone enters: contest it. */
export async function correctQuote(
  context: Context,
  asked: RecordedToCorrect,
): Promise<{ readonly corrected: true }> {
  return await correctRecorded(context, asked, 'correct-quote', async (tx, toPutRight) => {
    const { series } = await newestQuote(tx, asked.agreementId, asked.id);
    await refuseOthersSeries(tx, { found: toPutRight.found, caller: context.caller, series: [series] });
    await refuseSettledUpon(tx, asked.agreementId, { quoteId: asked.id });
    await putQuoteRight(tx, context, toPutRight);
  });
}

async function correctRecorded(
  context: Context,
  { agreementId, id, figures, reason, key, confirmed }: RecordedToCorrect,
  verb: string,
  work: (tx: Transaction, toPutRight: Parameters<typeof putResultRight>[2]) => Promise<void>,
): Promise<{ readonly corrected: true }> {
  permit(context, 'correct');
  return await doOnce(
    context,
    { verb, subject: id, key, input: { agreementId, figures, reason } },
    async (tx) => {
      const found = await findOwnAgreement(tx, context.caller, agreementId);
      if (!isId(id)) throw new Refusal('not-found', 'There is nothing of that number to put right.');
      await lockAgreement(tx, agreementId);
      const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
      await work(tx, { found, id, figures, reason: readReason(reason), recorded, confirmed });
      return { corrected: true };
    },
  );
}

async function refuseSettledUpon(
  tx: Transaction,
  agreementId: string,
  on: Parameters<typeof readSettledUpon>[2],
): Promise<void> {
  const { length } = await readSettledUpon(tx, agreementId, on);
  if (length === 0) return;
  const loads = length === 1 ? 'One load has' : `${length} loads have`;
  throw new Refusal(
    'already-settled',
    `${loads} settled from it. Propose the correction to the other side: once both agree, those loads are settled anew.`,
  );
}
