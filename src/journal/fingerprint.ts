/**
 * The form in which documents are fingerprinted: canonical JSON (RFC 8785), every number a string, hashed by SHA-256.
 * This form is frozen: a document that was fingerprinted once must give the same digits for years.
 */
import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';

/** A JSON document as its canonical text. Throws a TypeError for what is no JSON. */
export function canonicalText(document: unknown): string {
  const canonical = canonicalize(document);
  if (canonical === undefined) throw new TypeError('Only JSON has a canonical form');
  return canonical;
}

/** SHA-256 of a text's UTF-8 bytes, as 64 hexadecimal digits. */
export function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}
