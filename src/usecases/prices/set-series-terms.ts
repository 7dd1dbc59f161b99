/**
 * Settles where a price series is published, who enters its quotes and how long the other side may contest one.
 */
import {
  ENTERERS,
  type Enterer,
  MOST_CONTEST_DAYS,
  type SeriesTerms,
  takesFromOther,
} from '../../domain/prices/series-terms.ts';
import { CONTROL_CHARACTER } from '../../domain/text/control-character.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { insertSeriesTerms } from '../../store/rows/series-rows.ts';
import { findOwnAgreement, sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { badInput } from '../read-input-rows.ts';
import { type Problem, Refusal } from '../refusal.ts';
import { seriesOf } from './followed-series.ts';
import { seriesNamed } from './record-quotes.ts';
import { seriesTermsFact, standingTerms, termsBySeries } from './series-terms.ts';

export interface SeriesTermsToSet {
  readonly agreementId: string;
  readonly series: string;
  readonly source: string;
  /** `both`, `seller` or `buyer`. */
  readonly enteredBy: string;
  readonly contestDays: string;
  readonly key?: string;
}

const LONGEST_SOURCE = 300;

/**
 * A side gives its own rights away; what would take some from the other side, that one sets. Refuses `not-allowed`,
 * `bad-input`, `not-found` (a series that the agreement does not follow), `not-yours`.
 */
export async function setSeriesTerms(
  context: Context,
  { agreementId, series, source, enteredBy, contestDays, key }: SeriesTermsToSet,
): Promise<{ readonly series: string }> {
  permit(context, 'record-quote');
  const input = { series, source, enteredBy, contestDays };
  return await doOnce(context, { verb: 'set-series-terms', subject: agreementId, key, input }, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    if (!seriesOf(found).includes(series)) {
      throw new Refusal('not-found', 'The agreement follows no price of that name.');
    }
    const after = readTerms({ source, enteredBy, contestDays });
    await lockAgreement(tx, agreementId);
    const row = (await termsBySeries(tx, agreementId)).get(series);
    const before = standingTerms(row);
    const side = sideOf(found.row, context.caller);
    const taken = side === 'adviser' ? undefined : takesFromOther(before, after, side);
    if (taken) {
      const other = side === 'seller' ? found.row.buyerName : found.row.sellerName;
      const what = taken === 'entering' ? 'who enters the quotes' : 'the days to contest a quote';
      throw new Refusal(
        'not-yours',
        `That would change ${what} at the cost of ${other}. They can set it so.`,
      );
    }
    const isSame =
      before.source === after.source &&
      before.enteredBy === after.enteredBy &&
      before.contestDays === after.contestDays;
    if (isSame) return { series };
    const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
    const ids = await seriesNamed(tx, [series], { agreementId, newId: context.newId });
    const terms = { id: context.newId(), seriesId: ids.get(series) ?? '', ...after };
    await insertSeriesTerms(tx, terms, recorded);
    const fact = seriesTermsFact({ ...terms, series, recordedAt: recorded.recordedAt });
    await enterFacts(tx, [{ kind: 'series-terms', fact, subjectId: terms.id, postings: [] }], recorded);
    return { series };
  });
}

function readTerms({
  source,
  enteredBy,
  contestDays,
}: Pick<SeriesTermsToSet, 'source' | 'enteredBy' | 'contestDays'>): SeriesTerms {
  const problems: Problem[] = [];
  const words = source.trim();
  if (words === '')
    problems.push({ column: 'source', message: 'must not be empty: say where it is published' });
  if (words.length > LONGEST_SOURCE || CONTROL_CHARACTER.test(words)) {
    problems.push({
      column: 'source',
      message: `must be plain text of at most ${LONGEST_SOURCE} characters`,
    });
  }
  const who = ENTERERS.find((known): known is Enterer => known === enteredBy);
  if (!who) problems.push({ column: 'entered_by', message: `must be one of ${ENTERERS.join(', ')}` });
  const days = /^\d{1,3}$/.test(contestDays.trim()) ? Number(contestDays) : undefined;
  if (days === undefined) {
    problems.push({
      column: 'contest_days',
      message: `must be a whole number from 0 to ${MOST_CONTEST_DAYS}`,
    });
  }
  if (problems.length > 0 || !who || days === undefined) throw badInput(problems);
  return { source: words, enteredBy: who, contestDays: days };
}
