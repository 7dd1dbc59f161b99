/**
 * A question to act on: its agreement locked, all that was recorded of it, and today. Time has passed for it: one that is
 * over by its own rule is ended before anybody acts.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { Side } from '../../domain/retests/costs.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import type { Recorded } from '../../store/rows/result-rows.ts';
import { findRetestOf, readRetestRows } from '../../store/rows/retest-rows.ts';
import { type FoundAgreement, findOwnAgreement, isId, sideOf } from '../agreements/find-agreement.ts';
import { type Context, stamp } from '../context.ts';
import { moneyOfAgreement } from '../money/money-frame.ts';
import { Refusal } from '../refusal.ts';
import { caseGround, casesOf, type RetestCase } from './retest-case.ts';

export interface RetestFrame {
  readonly found: FoundAgreement;
  readonly asked: RetestCase;
  readonly today: LocalDate;
  readonly side: Side;
  readonly recorded: Recorded;
}

/** Refuses `not-found`, `not-yours`; `retest-over` for one that has ended, unless `isOver` is fine. */
export async function retestFrame(
  tx: Transaction,
  context: Context,
  { table, id }: { readonly table: Parameters<typeof findRetestOf>[1]; readonly id: string },
): Promise<RetestFrame> {
  const seen = isId(id) ? await findRetestOf(tx, table, id) : undefined;
  if (!seen) throw new Refusal('not-found', 'There is no such question.');
  const found = await findOwnAgreement(tx, context.caller, seen.agreementId);
  await lockAgreement(tx, seen.agreementId);
  return await frameOfRetest(tx, context, { found, retestId: seen.retestId });
}

/** The same for an agreement that is found and locked already. */
export async function frameOfRetest(
  tx: Transaction,
  context: Context,
  { found, retestId }: { readonly found: FoundAgreement; readonly retestId: string },
): Promise<RetestFrame> {
  const asked = (await readCases(tx, found)).find(({ id }) => id === retestId);
  if (!asked) throw new Refusal('not-found', 'There is no such question.');
  const recordedAt = stamp(context);
  return {
    found,
    asked,
    today: moneyOfAgreement(found).dayOf(recordedAt),
    side: sideOf(found.row, context.caller) === 'seller' ? 'seller' : 'buyer',
    recorded: { agreementId: found.row.id, recordedAt, recordedBy: context.caller.personId },
  };
}

/** All questions of an agreement, the first asked first. */
export async function readCases(tx: Transaction, found: FoundAgreement): Promise<readonly RetestCase[]> {
  const rows = await readRetestRows(tx, [found.row.id]);
  const { dayOf } = moneyOfAgreement(found);
  return casesOf(await caseGround(tx, { found, rows, dayOf }));
}

/** Refuses `retest-over`. */
export function refuseOver({ asked: { ending } }: Pick<RetestFrame, 'asked'>): void {
  if (!ending) return;
  throw new Refusal('retest-over', 'This question has ended. Look at what came of it.');
}
