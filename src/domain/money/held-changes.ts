/**
 * What is held of a document is not late. What a note takes off later was not owed from the first day, and a hold that
 * questioned just that must not take it off a second time.
 */
import type { LocalDate } from '../dates/local-date.ts';
import type { PrincipalChange } from './interest.ts';

export interface HeldPart {
  /** The load that is questioned; null for the whole document. */
  readonly load: string | null;
  /** Minor units. */
  readonly amount: bigint;
  readonly from: LocalDate;
  /** Undefined while it stands. */
  readonly to: LocalDate | undefined;
}

/** What a note on the document took off for a load. */
export interface CreditedPart {
  readonly load: string;
  /** Minor units, above zero. */
  readonly amount: bigint;
  readonly on: LocalDate;
}

/**
 * How holds change what is due of a document, beside the notes that lower it. 100.00 held of a load from 1 to 9 May and
 * 60.00 of it credited on 9 May takes 40.00 off for those days.
 */
export function heldChanges(
  holds: readonly HeldPart[],
  credits: readonly CreditedPart[],
): readonly PrincipalChange[] {
  return [...new Set(holds.map(({ load }) => load))].flatMap((load) => {
    const held = holds.filter((hold) => hold.load === load);
    const credited = credits.filter((credit) => credit.load === load);
    const days = new Set([
      ...held.flatMap(({ from, to }) => (to === undefined ? [from] : [from, to])),
      ...credited.map(({ on }) => on),
    ]);
    let before = 0n;
    return [...days].sort().map((on): PrincipalChange => {
      const standing = sum(held.filter(({ from, to }) => from <= on && (to === undefined || to > on)));
      const later = sum(credited.filter((credit) => credit.on > on));
      const beside = standing > later ? standing - later : 0n;
      const change = before - beside;
      before = beside;
      return { on, change };
    });
  });
}

function sum(parts: readonly { readonly amount: bigint }[]): bigint {
  return parts.reduce((total, { amount }) => total + amount, 0n);
}
