/**
 * The loads that each sample of an agreement stands for: those that name it, and under a plan by the day those of its
 * day that name none.
 */
import { readSampleLoads as readRows } from '../../store/rows/sample-load-rows.ts';
import { findAgreement, termsOn } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';

export interface SampledLoad {
  readonly id: string;
  readonly ticket: string;
}

/** By the name of the sample, first delivered first. Refuses `not-allowed`, `not-found`. */
export async function readSampleLoads(
  context: Context,
  { agreementId }: { readonly agreementId: string },
): Promise<ReadonlyMap<string, readonly SampledLoad[]>> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const found = await findAgreement(tx, agreementId);
    const loads = new Map<string, SampledLoad[]>();
    for (const { sample, loadId, ticket, deliveredOn } of await readRows(tx, agreementId)) {
      const isByDay = termsOn(found, deliveredOn).agreement.sampling?.plan === 'per-day';
      const name = sample ?? (isByDay ? deliveredOn : undefined);
      if (name === undefined) continue;
      const known = loads.get(name) ?? [];
      known.push({ id: loadId, ticket });
      loads.set(name, known);
    }
    return loads;
  });
}
