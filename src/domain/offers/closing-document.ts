/**
 * What both sign to end an agreement early: which one, and its last day of delivery. A document of its own, since it
 * changes no term.
 */
import { z } from 'zod';
import { describeIssue } from '../agreement/describe-issue.ts';
import type { AgreementProblem } from '../agreement/problem.ts';
import { date, text } from '../agreement/scalar-shapes.ts';

export const CLOSING_FORMAT = 'huskledger-closing/1';

const shape = z.strictObject({
  format: z.literal(CLOSING_FORMAT),
  /** The agreement's own `id`. */
  agreement: text,
  /** The fingerprint of the version in force. */
  fingerprint: text,
  seller: text,
  buyer: text,
  /** Loads delivered after this local date are no part of the agreement. */
  lastDelivery: date,
  reason: text.optional(),
});
export type ClosingDocument = z.infer<typeof shape>;

/** Reads a closing. Returns all problems with their paths. */
export function checkClosing(document: unknown): {
  readonly closing: ClosingDocument | undefined;
  readonly problems: readonly AgreementProblem[];
} {
  const parsed = shape.safeParse(document);
  if (parsed.success) return { closing: parsed.data, problems: [] };
  return {
    closing: undefined,
    problems: parsed.error.issues.flatMap((issue) => describeIssue(issue, document)),
  };
}

/** What a closing says, as both sign it. */
export function closingInWords({
  agreement,
  seller,
  buyer,
  lastDelivery,
  reason,
}: ClosingDocument): string[] {
  return [
    `${seller} and ${buyer} close agreement ${agreement} early. Its last day of delivery is ${lastDelivery}: a load delivered after that day is no part of it.`,
    'Loads delivered until then are settled, questioned and paid as the agreement says. Nothing that was recorded is changed.',
    ...(reason === undefined ? [] : [`Reason: ${reason}`]),
  ];
}
