/**
 * The loads that a question is about, with what they came to before it and come to now.
 */
import type { RetestRecord } from '../../domain/retests/retest-record.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readLoads } from '../../store/rows/load-rows.ts';
import { readSampleLoads } from '../../store/rows/sample-load-rows.ts';
import { readSettlements } from '../../store/rows/settlement-rows.ts';
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
    const before = versions.findLast(({ settledAt }) => settledAt <= recordedAt) ?? versions[0];
    return {
      loadId: id,
      ticket,
      deliveredOn,
      before: before?.total ?? null,
      now: versions.at(-1)?.total ?? null,
    };
  });
}
