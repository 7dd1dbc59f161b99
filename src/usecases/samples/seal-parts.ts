/**
 * Records the sealed parts of samples: whom each is for, under which seal, airtight or not, where it is kept and until
 * when.
 */
import { PART_COLUMNS, readPartRow } from '../../domain/tables/sampling-rows.ts';
import type { Entering } from '../../journal/chain.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readSampleIds } from '../../store/rows/result-rows.ts';
import { insertParts, type PartRow, readParts } from '../../store/rows/sample-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { badInput, type InputRow, readInputRows } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { partFact } from './sample-fact.ts';

export interface PartsToSeal {
  readonly agreementId: string;
  /** `sample`, `part` (laboratory, seller, buyer or referee), `seal`, `airtight` (yes or no), `kept_where`, `kept_until`. */
  readonly parts: readonly InputRow[];
  readonly key?: string;
}

/**
 * Returns the parts' ids, in their order; one that is there already, the same, is not written again. Refuses
 * `not-allowed`, `bad-input` (also a seal that is on another part), `not-found`.
 */
export async function sealParts(
  context: Context,
  { agreementId, parts, key }: PartsToSeal,
): Promise<readonly { readonly id: string; readonly seal: string; readonly isNew: boolean }[]> {
  permit(context, 'take-sample');
  return await doOnce(
    context,
    { verb: 'seal-parts', subject: agreementId, key, input: parts },
    async (tx) => {
      await findOwnAgreement(tx, context.caller, agreementId);
      const read = readInputRows(parts, { shape: PART_COLUMNS, read: readPartRow, key: ['seal'] });
      await lockAgreement(tx, agreementId);
      const recorded = { agreementId, recordedAt: stamp(context), recordedBy: context.caller.personId };
      const ids = await readSampleIds(
        tx,
        agreementId,
        read.map(({ found }) => found.sample),
      );
      const rows = read.map(({ found }): PartRow => {
        const sampleId = ids.get(found.sample);
        if (sampleId === undefined) {
          throw new Refusal(
            'not-found',
            `There is no sample ${found.sample}. Record that it was taken first.`,
          );
        }
        return { ...found, id: context.newId(), sampleId };
      });
      const before = new Map((await readParts(tx, agreementId)).map((row) => [row.seal, row]));
      refuseOtherParts(rows, before);
      const fresh = rows.filter(({ seal }) => !before.has(seal));
      await insertParts(tx, fresh, recorded);
      const facts = fresh.map(
        (row): Entering => ({ kind: 'sample-part', fact: partFact(row), subjectId: row.id, postings: [] }),
      );
      await enterFacts(tx, facts, recorded);
      return rows.map(({ id, seal }) => {
        const earlier = before.get(seal);
        return { id: earlier?.id ?? id, seal, isNew: earlier === undefined };
      });
    },
  );
}

function refuseOtherParts(rows: readonly PartRow[], before: ReadonlyMap<string, PartRow>): void {
  const problems = rows.flatMap((row, index) => {
    const other = before.get(row.seal);
    if (!other || JSON.stringify(partFact(other)) === JSON.stringify(partFact(row))) return [];
    const message = `${row.seal} is on the ${other.part}’s part of sample ${other.sample} already`;
    return [{ row: index, column: 'seal', message }];
  });
  if (problems.length > 0) throw badInput(problems);
}
