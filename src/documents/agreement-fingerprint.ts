/**
 * The fingerprint of an agreement: SHA-256 of its canonical JSON (RFC 8785), the same whatever blanks, line breaks and
 * order of keys a file has. Every number in an agreement is a string, so none is reformatted.
 */
import { canonicalText, sha256 } from '../journal/fingerprint.ts';

/** An agreement's canonical text and its fingerprint, as its paper carries them. */
export function canonicalAgreement(document: unknown): {
  readonly canonical: string;
  readonly fingerprint: string;
} {
  const canonical = canonicalText(document);
  return { canonical, fingerprint: sha256(canonical) };
}

/** 64 hexadecimal digits for a parsed agreement document. */
export function agreementFingerprint(document: unknown): string {
  return canonicalAgreement(document).fingerprint;
}
