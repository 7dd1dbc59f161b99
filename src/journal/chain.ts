/**
 * The chain of an agreement's entries. Each entry carries the fingerprint of the one before it, so that no entry can be
 * changed, taken out or slipped in without every later fingerprint failing to fit.
 */
import type { Posting } from './accounts.ts';
import type { Fact } from './facts.ts';
import { canonicalText, sha256 } from './fingerprint.ts';

/** What is to be entered. */
export type Entering = Fact & {
  /** The row that it is about. */
  readonly subjectId: string;
  readonly postings: readonly Posting[];
};

export interface Entry {
  readonly sequence: number;
  readonly kind: Fact['kind'];
  readonly subjectId: string;
  readonly document: string;
  readonly previous: string;
  readonly fingerprint: string;
  readonly postings: readonly Posting[];
}

/** The last entry of a chain. */
export interface ChainHead {
  readonly sequence: number;
  readonly fingerprint: string;
}

/** Where a chain without entries stands. */
export const CHAIN_START: ChainHead = { sequence: 0, fingerprint: '0'.repeat(64) };

export interface EntryStamp {
  readonly agreementId: string;
  /** ISO 8601, UTC. */
  readonly postedAt: string;
  readonly postedBy: string;
}

/** Entries for `facts`, in order, chained to `head`. */
export function chainEntries(head: ChainHead, facts: readonly Entering[], stamp: EntryStamp): Entry[] {
  let { sequence, fingerprint } = head;
  return facts.map(({ kind, fact, subjectId, postings }) => {
    sequence++;
    const previous = fingerprint;
    const document = canonicalText({
      agreement: stamp.agreementId,
      sequence: String(sequence),
      kind,
      subject: subjectId,
      postedAt: stamp.postedAt,
      postedBy: stamp.postedBy,
      fact,
      postings,
    });
    fingerprint = entryFingerprint(previous, document);
    return { sequence, kind, subjectId, document, previous, fingerprint, postings };
  });
}

/** SHA-256 of the fingerprint before, a line feed and the document. The database checks the same. */
export function entryFingerprint(previous: string, document: string): string {
  return sha256(`${previous}\n${document}`);
}
