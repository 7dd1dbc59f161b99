/**
 * The two parties of an agreement by name, as its sentences call them.
 */
export interface Parties {
  readonly seller: string;
  readonly buyer: string;
}

/** Who does something, by name where it is one of the parties. */
export function whoIs(who: string, { seller, buyer }: Parties): string {
  if (who === 'seller') return seller;
  if (who === 'buyer') return buyer;
  return who === 'both together' ? `${seller} and ${buyer} together` : who;
}
