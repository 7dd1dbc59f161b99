/**
 * While a correction is open, what it would take off an invoiced load is held: the rest stays due.
 */
import { minorUnits } from '../../domain/money/minor-units.ts';
import type { HoldFact } from '../../journal/money-facts.ts';
import type { Transaction } from '../../store/open-store.ts';
import type { FoundAgreement } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import type { CorrectedLoad } from '../corrections/take-correction.ts';
import { endHolds } from './end-holds.ts';
import { enterHolds } from './hold-amount.ts';
import { frameOf, type MoneyFrame } from './money-frame.ts';
import { liveHolds } from './money-rows.ts';

export interface Disputed {
  readonly found: FoundAgreement;
  readonly correctionId: string;
  /** The loads that it would settle anew, with their totals now and then. */
  readonly changed: readonly CorrectedLoad[];
  readonly reason: string;
}

/** Holds what is in dispute, as far as it is invoiced and open. The agreement must be locked. */
export async function holdDisputed(
  tx: Transaction,
  context: Context,
  { found, correctionId, changed, reason }: Disputed,
): Promise<void> {
  const frame = await frameOf(tx, context, found);
  const free = new Map(frame.standing.documents.map(({ id, open, held }) => [id, open - held]));
  const facts = changed.flatMap((load): HoldFact[] => {
    const documentId = invoiceOf(frame, load.loadId);
    const lower = minorUnits(load.before, frame.money) - minorUnits(load.after, frame.money);
    const left = documentId === undefined ? 0n : (free.get(documentId) ?? 0n);
    const amount = lower < left ? lower : left;
    if (documentId === undefined || amount <= 0n) return [];
    free.set(documentId, left - amount);
    return [
      {
        document: documentId,
        load: load.loadId,
        amount: frame.print(amount),
        reason,
        party: context.caller.partyId,
        correction: correctionId,
      },
    ];
  });
  await enterHolds(tx, context, { frame, facts });
}

/** The last document that brought a load's settlement. */
function invoiceOf({ rows }: MoneyFrame, loadId: string): string | undefined {
  return rows.documents.findLast(
    ({ fact }) =>
      fact.kind !== 'credit-note' &&
      fact.loads.some(({ load, settlement }) => load === loadId && settlement !== null),
  )?.id;
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
