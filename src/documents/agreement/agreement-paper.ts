/**
 * Everything that an agreement's paper is made from. The words are not given: they are said from the agreement, which
 * must be what the canonical text says, so that paper and file cannot differ.
 */
import type { Agreement } from '../../domain/agreement/document.ts';

export type Side = 'seller' | 'buyer';

export interface PaperSignature {
  readonly party: string;
  readonly side: Side;
  /** The name as it was typed. */
  readonly name: string;
  /** ISO 8601 with an offset. */
  readonly signedAt: string;
}

export interface AgreementPaper {
  /** "Agreement 14", or "Offer, not signed". */
  readonly title: string;
  readonly agreement: Agreement;
  /** The agreement's canonical JSON (RFC 8785), which is attached. */
  readonly canonical: string;
  /** SHA-256 of the canonical text, 64 hexadecimal digits. */
  readonly fingerprint: string;
  /**
   * The version in the shared record. A paper without one is printed from a file alone: a copy that says nothing of who
   * has signed, with lines to sign by hand.
   */
  readonly version?: string;
  /** The seller's own running number of it. */
  readonly serial?: string;
  /** Local date from which deliveries come under this version. */
  readonly effectiveFrom?: string;
  /** None, one or both; in any order. */
  readonly signatures: readonly PaperSignature[];
  /** One sentence: what this paper is worth today. */
  readonly standing: string;
}

export const SIDES: readonly Side[] = ['seller', 'buyer'];

/** Who has signed, in few words for the foot of every page: one page alone must not pass for a signed agreement. */
export function signedState({ signatures, version }: AgreementPaper): string {
  const [first, second] = SIDES.filter((side) => signatures.some((signature) => signature.side === side));
  if (first === undefined) return version === undefined ? 'unsigned copy' : 'not signed';
  return second === undefined ? `signed by the ${first} only` : 'signed by both';
}
