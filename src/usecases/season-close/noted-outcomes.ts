/**
 * Of what does not agree in a party's list of loads, what it has noted as a difference: those that the other side has agreed to
 * leave standing are settled. A note holds for the difference that it names: where either list changes, the row is open again.
 */

import type { Outcome } from '../../domain/matching/match-lists.ts';
import { moneyApart } from '../../domain/matching/money-apart.ts';
import type { Marked } from './part-outcomes.ts';
import type { SeasonNoteView } from './season-notes.ts';

export interface Noted {
  readonly open: readonly Marked<Outcome>[];
  /** What both leave standing. */
  readonly left: readonly Marked<Outcome>[];
  /** Of what is open: fingerprints of those that are noted and not answered. */
  readonly put: ReadonlySet<string>;
}

export function partNoted(
  outcomes: readonly Marked<Outcome>[],
  { notes, decimals }: { readonly notes: readonly SeasonNoteView[]; readonly decimals: number },
): Noted {
  const own = notes.filter(({ isOurs, kind }) => isOurs && kind === 'difference');
  const said = new Set(own.map(({ loadId, amount, standing }) => `${loadId} ${amount} ${standing}`));
  const isNoted = (outcome: Outcome, standing: SeasonNoteView['standing']) => {
    const load = loadOf(outcome);
    return load !== undefined && said.has(`${load} ${moneyApart(outcome, decimals)} ${standing}`);
  };
  const left = new Set(outcomes.filter((outcome) => isNoted(outcome, 'confirmed')));
  const open = outcomes.filter((outcome) => !left.has(outcome));
  return {
    open,
    left: [...left],
    put: new Set(open.filter((outcome) => isNoted(outcome, 'open')).map(({ fingerprint }) => fingerprint)),
  };
}

/** The record's load of an outcome, if one. */
function loadOf(outcome: Outcome): string | undefined {
  if (outcome.kind === 'pair') return outcome.record.id;
  return outcome.in === 'record' ? outcome.row.id : undefined;
}
