/**
 * The loads that a question is about, with what they came to before it and come to now.
 */
import type { RetestRecord } from '../../domain/retests/retest-record.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readLoads } from '../../store/rows/load-rows.ts';
import { readSampleLoads } from '../../store/rows/sample-load-rows.ts';
import { readSettlements, type SettlementRow } from '../../store/rows/settlement-rows.ts';
import { termsOn } from '../agreements/find-agreement.ts';
import { groupRows } from '../group-rows.ts';
import type { RetestFrame } from './retest-frame.ts';

/** First delivered first. */
export async function questionedLoads(
  tx: Transaction,
  { found, asked }: Pick<RetestFrame, 'found' | 'asked'>,
): Promise<RetestRecord['loads']> {
  const { sample, fact, recordedAt } = asked.row;
  const dayOf = (deliveredOn: string) =>
    termsOn(found, deliveredOn).agreement.sampling?.plan === 'per-day' ? deliveredOn : undefined;
  const named = await readSampleLoads(tx, found.row.id);
  const ids =
    fact.load === null
      ? named
          .filter((load) => (load.sample ?? dayOf(load.deliveredOn)) === sample)
          .map(({ loadId }) => loadId)
      : [fact.load];
  const settlements = groupRows(await readSettlements(tx, found.row.id, ids), ({ loadId }) => loadId);
  return (await readLoads(tx, found.row.id, ids)).map(({ id, ticket, deliveredOn }) => {
    const versions = settlements.get(id) ?? [];
    const { before, after } = asked.ending
      ? byEnding(versions, asked.ending.recordedAt)
      : {
          before: versions.findLast(({ settledAt }) => settledAt <= recordedAt) ?? versions[0],
          after: versions.at(-1),
        };
    return {
      ...{ loadId: id, ticket, deliveredOn },
      before: before?.total ?? null,
      now: after?.total ?? null,
    };
  });
}

/** What a load came to just before an ending, and by it: other questions may have moved it before and since. */
function byEnding(versions: readonly SettlementRow[], endedAt: string) {
  const before = versions.findLast(({ settledAt }) => settledAt < endedAt);
  const after = versions.find(({ settledAt }) => settledAt === endedAt);
  return { before: before ?? after, after: after ?? before };
}
