/**
 * Writes a version of an offer: what is checked of every one, whoever sends it and whatever it is about.
 */

import type { AgreementProblem } from '../../domain/agreement/problem.ts';
import { printPath } from '../../domain/agreement/problem.ts';
import { whenText } from '../../domain/dates/instant.ts';
import { DAY_MS, LONGEST_MESSAGE, MOST_DAYS } from '../../domain/offers/offer.ts';
import { CONTROL_CHARACTER } from '../../domain/text/control-character.ts';
import { canonicalText, sha256 } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertOfferVersion } from '../../store/rows/offer-rows.ts';
import { type Context, stamp } from '../context.ts';
import { badInput } from '../read-input-rows.ts';
import type { Problem, Refusal } from '../refusal.ts';

/** What goes with a version beside its terms. */
export interface Sending {
  /** A few words to the other side. */
  readonly message?: string;
  /** Days for which it stands, a whole number. */
  readonly validDays: string;
}

/** Reads message and days; the faults of both, with those of the document. Refuses `bad-input`. */
export function readSending({ message = '', validDays }: Sending, more: readonly Problem[] = []) {
  const problems: Problem[] = [...more];
  // Line ends are a writer's own; other control characters are not.
  const words = message.replace(/\r\n?/g, '\n').trim();
  if (CONTROL_CHARACTER.test(words.replaceAll('\n', ' '))) {
    problems.push({ column: 'message', message: 'has characters that cannot be shown; type it anew' });
  }
  if (words.length > LONGEST_MESSAGE) {
    problems.push({ column: 'message', message: `must have at most ${LONGEST_MESSAGE} characters` });
  }
  const days = /^\d{1,3}$/.test(validDays.trim()) ? Number(validDays) : 0;
  if (days < 1 || days > MOST_DAYS) {
    problems.push({ column: 'validDays', message: `must be a whole number of days from 1 to ${MOST_DAYS}` });
  }
  if (problems.length > 0) throw badInput(problems);
  return { message: words === '' ? null : words, days };
}

/** Problems of a document, by their path: "$.price[2].rate …". */
export function termProblems(problems: readonly AgreementProblem[]): Problem[] {
  return problems.map(({ path, message }) => ({ column: printPath(path), message }));
}

export function refusedTerms(problems: readonly AgreementProblem[]): Refusal {
  return badInput(termProblems(problems));
}

export interface VersionToSend {
  readonly offerId: string;
  readonly version: number;
  readonly document: unknown;
  readonly message: string | null;
  readonly days: number;
  readonly effectiveFrom: string | null;
}

/** Returns the version's fingerprint. */
export async function sendVersion(
  tx: Transaction,
  context: Context,
  { document, days, ...version }: VersionToSend,
): Promise<string> {
  const text = canonicalText(document);
  const fingerprint = sha256(text);
  await insertOfferVersion(tx, {
    ...version,
    byPartyId: context.caller.partyId,
    document: text,
    fingerprint,
    validUntil: whenText(context.now() + days * DAY_MS),
    recordedAt: stamp(context),
    recordedBy: context.caller.personId,
  });
  return fingerprint;
}
