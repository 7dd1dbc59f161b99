/**
 * Outcomes of a party's own list and the record parted: those that agree or are open, and those for which the party accepts the
 * record. Such a mark is kept by a fingerprint of what both lists say, so it falls away by itself when either says something else.
 */
import { type NamedOutcome, standingsOf } from '../../domain/matching/match-lists.ts';
import { canonicalText, sha256 } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readAcceptedRows } from '../../store/rows/accepted-row-rows.ts';

/** An outcome with the fingerprint by which the record is accepted for it. */
export type Marked<Outcome> = Outcome & { readonly fingerprint: string };

export interface Parted<Outcome> {
  /** All but those that are accepted. */
  readonly counted: readonly Outcome[];
  /** What does not agree and is not accepted. */
  readonly open: readonly Marked<Outcome>[];
  /** What does not agree, and for which the party accepts the record. */
  readonly accepted: readonly Marked<Outcome>[];
}

type Side = 'mine' | 'record';
type Row = { readonly id: string };
/** An outcome of loads or of payments. */
export type AnyOutcome = NamedOutcome &
  (
    | { readonly kind: 'pair'; readonly mine: Row; readonly record: Row }
    | { readonly kind: 'only' | 'twice'; readonly in: Side; readonly row: Row }
  );

/** Parts the outcomes of a kind of list by what the transaction's party accepts. */
export async function partOutcomes<Outcome extends AnyOutcome>(
  tx: Transaction,
  list: { readonly agreementId: string; readonly kind: string },
  outcomes: readonly Outcome[],
): Promise<Parted<Outcome>> {
  const words = await readAcceptedRows(tx, list);
  const taken = new Set(
    words.filter(({ word }) => word === 'accepted').map(({ fingerprint }) => fingerprint),
  );
  const marked = markedOutcomes(outcomes);
  const accepted = marked.filter(({ fingerprint }) => taken.has(fingerprint));
  const open = marked.filter(({ fingerprint }) => !taken.has(fingerprint));
  return { counted: [...outcomes.filter(isAgreed), ...open], open, accepted };
}

/** What does not agree, each with its fingerprint. */
export function markedOutcomes<Outcome extends AnyOutcome>(outcomes: readonly Outcome[]): Marked<Outcome>[] {
  const seen = new Map<string, number>();
  return outcomes
    .filter((outcome) => !isAgreed(outcome))
    .map((outcome) => {
      const said = saidBy(outcome);
      const text = canonicalText(said);
      // Rows that say the very same are told apart by their number.
      const before = seen.get(text) ?? 0;
      seen.set(text, before + 1);
      return { ...outcome, fingerprint: sha256(before === 0 ? text : canonicalText({ ...said, before })) };
    });
}

function isAgreed(outcome: NamedOutcome): boolean {
  return standingsOf(outcome).includes('agrees');
}

/** What the fingerprint is of; frozen, since marks are kept by it. */
function saidBy(outcome: AnyOutcome): Record<string, unknown> {
  if (outcome.kind === 'pair')
    return {
      kind: 'pair',
      mine: figuresOf(outcome.mine, 'mine'),
      record: figuresOf(outcome.record, 'record'),
    };
  return { kind: outcome.kind, in: outcome.in, row: figuresOf(outcome.row, outcome.in) };
}

/** A row without what only explains it, and one's own without its line, which moves when the list is brought again. */
function figuresOf(row: Row, side: Side): Record<string, unknown> {
  const { priced: _priced, known: _known, ...figures }: Record<string, unknown> = { ...row };
  if (side === 'record') return figures;
  const { id: _line, ...said } = figures;
  return said;
}
