/**
 * Secrets that travel in a link: long enough not to be guessed, and kept as their hash alone.
 */
import { randomBytes } from 'node:crypto';
import { sha256 } from '../../journal/fingerprint.ts';

/** A new secret, fit for an address. */
export function newSecret(): string {
  return randomBytes(32).toString('base64url');
}

/** What is kept of a secret. */
export function secretHash(secret: string): string {
  return sha256(secret);
}
