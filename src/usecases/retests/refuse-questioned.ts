/**
 * What is questioned is not put right beside its rule: the question decides, or both sides end it first.
 */
import type { Transaction } from '../../store/open-store.ts';
import { readRetestRows } from '../../store/rows/retest-rows.ts';
import { Refusal } from '../refusal.ts';

/** Refuses `retest-open` where a question about a load's weight, or any figure of a sample, is open. */
export async function refuseQuestioned(
  tx: Transaction,
  agreementId: string,
  about: { readonly loadId: string } | { readonly sampleId: string },
): Promise<void> {
  const { questions, endings } = await readRetestRows(tx, [agreementId]);
  const over = new Set(endings.map(({ fact }) => fact.retest));
  const open = questions.find(
    ({ id, fact }) =>
      !over.has(id) && ('loadId' in about ? fact.load === about.loadId : fact.sample === about.sampleId),
  );
  if (!open) return;
  const what =
    open.sample === null ? `The weight of load ${open.ticket ?? ''}` : `The result of sample ${open.sample}`;
  throw new Refusal(
    'retest-open',
    `${what} is questioned, and its rule decides. To put it right yourselves, end the question first: both of you confirm.`,
  );
}
