/**
 * While a correction is open, what it would take off an invoiced load is held: the rest stays due.
 */
import type { HoldFact } from '../../journal/money-facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { claimLoads } from './claim-loads.ts';
import { endHolds } from './end-holds.ts';
import { enterHolds } from './hold-amount.ts';
import { frameOf, type MoneyFrame } from './money-frame.ts';
import { liveHolds } from './money-rows.ts';

/** What a load's note would take off the document that it corrects. */
export interface NoteToCome {
  readonly loadId: string;
  readonly documentId: string;
  /** Minor units; below zero where it would add. */
  readonly lower: bigint;
}

/** The notes of invoiced loads as they have settled by now, deductions and all. The agreement must be locked. */
export async function notesToCome(
  tx: Transaction,
  context: Context,
  { found, loadIds }: { readonly found: FoundAgreement; readonly loadIds: readonly string[] },
): Promise<readonly NoteToCome[]> {
  const { claims } = await claimLoads(tx, await frameOf(tx, context, found), loadIds);
  return claims.flatMap(({ load, isNote, corrects, goods, deducted, advance }) =>
    isNote && corrects !== null
      ? [{ loadId: load.loadId, documentId: corrects, lower: deducted + advance - goods }]
      : [],
  );
}

export interface Disputed {
  readonly found: FoundAgreement;
  readonly correctionId: string;
  readonly notes: readonly NoteToCome[];
  readonly reason: string;
}

/** Holds what is in dispute, as far as it is invoiced and open. The agreement must be locked. */
export async function holdDisputed(
  tx: Transaction,
  context: Context,
  { found, correctionId, notes, reason }: Disputed,
): Promise<void> {
  const frame = await frameOf(tx, context, found);
  const facts = holdFacts(frame, notes, {
    reason,
    party: context.caller.partyId,
    correction: correctionId,
  });
  await enterHolds(tx, context, { frame, facts });
}

/** What of each document is to be held, at most what is due of it and not held yet. */
export function holdFacts(
  frame: Pick<MoneyFrame, 'standing' | 'print'>,
  notes: readonly NoteToCome[],
  why: Pick<HoldFact, 'reason' | 'party' | 'correction' | 'retest'>,
): readonly HoldFact[] {
  const free = new Map(frame.standing.documents.map(({ id, open, held }) => [id, open - held]));
  return notes.flatMap(({ loadId, documentId, lower }): HoldFact[] => {
    const left = free.get(documentId) ?? 0n;
    const amount = lower < left ? lower : left;
    if (amount <= 0n) return [];
    free.set(documentId, left - amount);
    return [{ document: documentId, load: loadId, amount: frame.print(amount), ...why }];
  });
}

/** Ends what a correction held, whichever way it ended. The agreement must be locked. */
export async function endDisputed(
  tx: Transaction,
  context: Context,
  { found, correctionId }: Pick<Disputed, 'found' | 'correctionId'>,
): Promise<void> {
  const frame = await frameOf(tx, context, found);
  const holds = liveHolds(frame.rows).filter(({ fact }) => fact.correction === correctionId);
  await endHolds(tx, context, { frame, holds, ending: 'decided' });
}
