/**
 * The mark of a seal: one hash over what was signed, over which journal, by whom and when. Whoever has it on paper can tell
 * whether a file says the same.
 */
import { canonicalText, sha256 } from './fingerprint.ts';

export interface Sealed {
  /** SHA-256 of the closing statement. */
  readonly statement: string;
  readonly root: string;
  readonly entries: string;
  /** ISO 8601, UTC. */
  readonly sealedAt: string;
  readonly signatures: readonly {
    readonly party: string;
    readonly name: string;
    readonly signedAt: string;
  }[];
}

/** 64 hexadecimal digits. */
export function sealMark({ statement, root, entries, sealedAt, signatures }: Sealed): string {
  return sha256(
    canonicalText({
      statement,
      root,
      entries,
      sealedAt,
      signatures: signatures.map(({ party, name, signedAt }) => ({ party, name, signedAt })),
    }),
  );
}
