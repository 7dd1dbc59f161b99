/**
 * Advice that the caller's party asked for or gives, and what is refused of it.
 */
import { type OtherSide, type Subject, subjectInWords, subjectKind } from '../../domain/advice/subject.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type AdviceRow, readAdvice } from '../../store/rows/advice-rows.ts';
import { isId } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { Refusal } from '../refusal.ts';

/** Refuses `not-found` where there is none that the caller's party may see. */
export async function findAdvice(tx: Transaction, id: string): Promise<AdviceRow> {
  const row = isId(id) ? await readAdvice(tx, id) : undefined;
  if (!row) throw new Refusal('not-found', 'There is no such advice.');
  return row;
}

/** Refuses as `findAdvice`, and `advice-over` where it has ended. */
export async function findRunningAdvice(tx: Transaction, id: string): Promise<AdviceRow> {
  const row = await findAdvice(tx, id);
  if (row.endedAt !== null) {
    throw new Refusal('advice-over', 'This advice has ended. What was written stays to be read.');
  }
  return row;
}

/** What advice is about. */
export function subjectOf({ lotId, offerId, agreementId }: AdviceRow): Subject {
  if (lotId !== null) return { lotId };
  return offerId === null ? { agreementId: agreementId ?? '' } : { offerId };
}

/** "the offer on lot 3 of Quillback Acres", with whom whoever asked has it. */
export function adviceInWords(row: AdviceRow): string {
  return subjectInWords(subjectKind(subjectOf(row)), row, otherSide(row));
}

function otherSide({ partyId, sellerId, sellerName, buyerName }: AdviceRow): OtherSide | undefined {
  if (partyId !== sellerId) return sellerName === null ? undefined : { name: sellerName, side: 'seller' };
  return buyerName === null ? undefined : { name: buyerName, side: 'buyer' };
}

/** The other one of the two. */
export function otherOf(
  { partyId, partyName, adviserId, adviserName }: AdviceRow,
  { caller }: Context,
): { readonly id: string; readonly name: string; readonly advises: boolean } {
  return caller.partyId === partyId
    ? { id: adviserId, name: adviserName, advises: true }
    : { id: partyId, name: partyName, advises: false };
}

/** How the caller is called where something is written in their name. */
export async function personName(tx: Transaction, { caller }: Context): Promise<string> {
  const where = { id: caller.personId };
  const { name } = await tx.person.findUniqueOrThrow({ where, select: { name: true } });
  return name;
}
