/**
 * Samples by the names that tickets and laboratories give them; one that is new is written.
 */
import type { Transaction } from '../../store/open-store.ts';
import { insertSamples, type Recorded, readSampleIds } from '../../store/rows/result-rows.ts';
import type { Context } from '../context.ts';

/** Ids by name. */
export async function samplesNamed(
  tx: Transaction,
  { newId }: Pick<Context, 'newId'>,
  { names, recorded }: { readonly names: readonly string[]; readonly recorded: Recorded },
): Promise<ReadonlyMap<string, string>> {
  const wanted = [...new Set(names)];
  const known = new Map(await readSampleIds(tx, recorded.agreementId, wanted));
  const fresh = wanted.filter((name) => !known.has(name)).map((name) => ({ name, id: newId() }));
  for (const { name, id } of fresh) known.set(name, id);
  await insertSamples(tx, fresh, recorded);
  return known;
}
