/**
 * A lot that the caller's party may see, with what is said of it.
 */
import { checkLot, type LotDocument } from '../../domain/lots/lot-document.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type LotRow, readLot } from '../../store/rows/lot-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { Refusal } from '../refusal.ts';

/** Refuses `not-found` where there is none that the caller's party may see. */
export async function findLot(tx: Transaction, id: string): Promise<LotRow> {
  const lot = isId(id) ? await readLot(tx, id) : undefined;
  if (!lot) throw new Refusal('not-found', 'There is no such lot.');
  return lot;
}

/** Refuses as `findLot`, and `not-yours` where the caller's party is not its seller. */
export async function findOwnLot(tx: Transaction, context: Context, id: string): Promise<LotRow> {
  const lot = await findLot(tx, id);
  if (lot.sellerId !== context.caller.partyId) {
    throw new Refusal('not-yours', `This lot is ${lot.sellerName}’s.`);
  }
  return lot;
}

/** A document that was checked before it was recorded. Throws where it no longer is a lot's. */
export function lotOf(document: string): LotDocument {
  const { lot } = checkLot(JSON.parse(document));
  if (!lot) throw new Error('A recorded lot no longer reads as one');
  return lot;
}

/** Refuses `lot-closed` for a lot that is sold. */
export function refuseSold({ state, number }: LotRow): void {
  if (state === 'sold') throw new Refusal('lot-closed', `Lot ${number} is sold; it stays as it was.`);
}
