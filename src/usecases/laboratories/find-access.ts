/**
 * Whether an agreement lets the caller's laboratory enter results.
 */
import type { Transaction } from '../../store/open-store.ts';
import { type LaboratoryAccessRow, readLaboratoryAgreements } from '../../store/rows/laboratory-rows.ts';
import type { Context } from '../context.ts';
import { Refusal } from '../refusal.ts';

/** Refuses `not-found` where it does not. */
export async function findLaboratoryAccess(
  tx: Transaction,
  { caller }: Pick<Context, 'caller'>,
  agreementId: string,
): Promise<LaboratoryAccessRow> {
  const open = await readLaboratoryAgreements(tx, caller.partyId);
  const access = open.find((row) => row.agreementId === agreementId);
  if (!access) throw new Refusal('not-found', 'There is no agreement of that number that lets you in.');
  return access;
}
