/**
 * How a party that the transaction may see is called.
 */
import type { Transaction } from '../../store/open-store.ts';

export async function partyName(tx: Transaction, partyId: string): Promise<string> {
  const { name } = await tx.party.findUniqueOrThrow({ where: { id: partyId }, select: { name: true } });
  return name;
}
