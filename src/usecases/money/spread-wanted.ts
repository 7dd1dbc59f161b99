/**
 * How somebody wants money spread over documents, read from what they give and as it is stored.
 */
import { minorUnits, parseMinorUnits } from '../../domain/money/minor-units.ts';
import { documentName } from '../../domain/money/money-document.ts';
import type { Spread } from '../../domain/money/spread.ts';
import { canonicalText } from '../../journal/fingerprint.ts';
import { badInput } from '../read-input-rows.ts';
import type { Problem } from '../refusal.ts';
import type { MoneyFrame } from './money-frame.ts';

/** A part of a payment that is meant for one document. */
export interface PartWanted {
  readonly documentId: string;
  /** A decimal string. */
  readonly amount: string;
}

/**
 * Reads the parts against what is due. Refuses `bad-input` where a part is no amount, names no document of the agreement
 * or one that another part names, is more than is due of it, the parts are more than the whole, or parts are named and the
 * spread is another.
 */
export function readSpread(
  frame: MoneyFrame,
  wanted: {
    readonly kind: Spread['kind'];
    readonly parts: readonly PartWanted[];
    /** The whole, in minor units. */
    readonly amount: bigint;
  },
): Spread {
  const { kind, parts, amount } = wanted;
  if (kind !== 'as-said') {
    // Amounts that somebody typed must not be passed over in silence.
    if (parts.length === 0) return { kind };
    const message =
      'leaves no room for the amounts that are named for single documents: leave those empty, or say that you name them';
    throw badInput([{ column: 'spread', message }]);
  }
  const problems: Problem[] = [];
  let sum = 0n;
  const read = parts.flatMap((part, index) => {
    const document = frame.standing.documents.find(({ id }) => id === part.documentId);
    const units = parseMinorUnits(part.amount, frame.money);
    const column = `part_${part.documentId}`;
    if (parts.findIndex(({ documentId }) => documentId === part.documentId) < index) {
      problems.push({ column, message: 'is named twice; give one amount for each document' });
      return [];
    }
    if (!document || units === undefined || units <= 0n) {
      const message = document
        ? `must be an amount above 0, or empty; found ${JSON.stringify(part.amount)}`
        : 'names no document of this agreement';
      problems.push({ column, message });
      return [];
    }
    const due = document.open - document.held;
    if (units > due) {
      const name = documentName({ kind: document.kind, number: String(document.serial) });
      const held = document.held > 0n ? ` (${frame.print(document.held)} of it is held)` : '';
      problems.push({ column, message: `is more than the ${frame.print(due)} due on ${name}${held}` });
    }
    sum += units;
    return [{ documentId: part.documentId, amount: units }];
  });
  if (problems.length === 0 && sum > amount) {
    problems.push({
      column: 'amount',
      message: `is ${frame.print(amount)}, and the parts come to ${frame.print(sum)}`,
    });
  }
  if (problems.length === 0 && read.length === 0) {
    problems.push({ column: 'spread', message: 'says that you name the parts; give at least one' });
  }
  if (problems.length > 0) throw badInput(problems);
  return { kind, parts: read };
}

/** A spread as it is stored: canonical JSON, amounts as decimal strings. */
export function spreadText(spread: Spread, { print }: Pick<MoneyFrame, 'print'>): string {
  if (spread.kind !== 'as-said') return canonicalText({ kind: spread.kind });
  const parts = spread.parts.map(({ documentId, amount }) => ({
    document: documentId,
    amount: print(amount),
  }));
  return canonicalText({ kind: spread.kind, parts });
}

/** Reads what `spreadText` wrote. */
export function storedSpread(text: string, { money }: Pick<MoneyFrame, 'money'>): Spread {
  const stored = JSON.parse(text) as {
    readonly kind: Spread['kind'];
    readonly parts?: readonly { readonly document: string; readonly amount: string }[];
  };
  if (stored.kind !== 'as-said') return { kind: stored.kind };
  return {
    kind: stored.kind,
    parts: (stored.parts ?? []).map(({ document, amount }) => ({
      documentId: document,
      amount: minorUnits(amount, money),
    })),
  };
}
