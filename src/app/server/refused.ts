/**
 * Telling an expected refusal from a defect. A defect is logged in full under a reference that the reader is given.
 */
import { randomBytes } from 'node:crypto';
import { REFUSAL_CODES, type Refusal } from '../../usecases/refusal.ts';

/** The refusal that was thrown, if it was one. Bundles may hold the class more than once, so its code tells. */
export function refusalOf(error: unknown): Refusal | undefined {
  if (!(error instanceof Error) || !('code' in error) || !('problems' in error)) return undefined;
  return REFUSAL_CODES.some((code) => code === error.code) ? (error as Refusal) : undefined;
}

/** Logs a defect and returns the reference that stands beside it in the log. */
export function logDefect(error: unknown): string {
  const reference = randomBytes(4).toString('hex');
  console.error(`Defect ${reference}:`, error);
  return reference;
}
