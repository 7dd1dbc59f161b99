/**
 * The fingerprint of an agreement: SHA-256 of its canonical JSON (RFC 8785), the same whatever blanks, line breaks and
 * order of keys a file has. Every number in an agreement is a string, so none is reformatted.
 */
import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';

/** 64 hexadecimal digits for a parsed agreement document. */
export function agreementFingerprint(document: unknown): string {
  const canonical = canonicalize(document);
  if (canonical === undefined) throw new TypeError('An agreement document is JSON');
  return createHash('sha256').update(canonical, 'utf8').digest('hex');
}
