/**
 * Agreements of the same two parties, each on the side that it has in the other.
 */

export interface Pair {
  readonly sellerId: string;
  readonly buyerId: string;
}

/** Whether one sells to the other in both; an agreement is of the same pair as itself. */
export function isSamePair(a: Pair, b: Pair): boolean {
  return a.sellerId === b.sellerId && a.buyerId === b.buyerId;
}
