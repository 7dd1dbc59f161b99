/**
 * Whether what a retest would test is still there: each part that the method tests sealed, and kept past today.
 */
import { type DecidingMethod, partsTested, type SamplePart } from '../agreement/retest-rules.ts';
import type { LocalDate } from '../dates/local-date.ts';
import { rule } from './decide.ts';
import type { RetestFigure } from './figures.ts';

/** A part as it is now, by its last hand-over. */
export interface KeptPart {
  readonly part: string;
  readonly seal: string;
  readonly isSealIntact: boolean;
  readonly keptUntil: LocalDate | null;
}

export type PartState = 'kept' | 'missing' | 'broken' | 'expired';

export interface NeededPart {
  readonly part: SamplePart;
  /** Where several were sealed, the seal of the one that is kept best. */
  readonly seal: string | undefined;
  readonly is: PartState;
  readonly keptUntil: LocalDate | null;
  /** The method begins with it; without it nothing can be decided. */
  readonly isFirst: boolean;
}

const ORDER: readonly PartState[] = ['kept', 'expired', 'broken', 'missing'];

/** The parts that a method tests, and how each stands on a day. */
export function neededParts(
  method: DecidingMethod,
  {
    parts,
    first,
    today,
  }: { readonly parts: readonly KeptPart[]; readonly first: RetestFigure; readonly today: LocalDate },
): readonly NeededPart[] {
  if (method.method === 'second-scale') return [];
  const ruling = rule(method, { first, later: [] });
  const begins = new Set(ruling.kind === 'needs' ? ruling.tests.map(({ by }) => by) : []);
  return partsTested(method).map((part) => {
    const [best] = parts
      .filter((one) => one.part === part)
      .map((one) => ({ seal: one.seal, is: stateOf(one, today), keptUntil: one.keptUntil }))
      .sort((a, b) => ORDER.indexOf(a.is) - ORDER.indexOf(b.is));
    const missing = { seal: undefined, is: 'missing' as const, keptUntil: null };
    return { part, isFirst: begins.has(part), ...(best ?? missing) };
  });
}

/** A part may still be tested on the last day that it is kept. */
function stateOf({ isSealIntact, keptUntil }: KeptPart, today: LocalDate): PartState {
  if (!isSealIntact) return 'broken';
  return keptUntil !== null && keptUntil < today ? 'expired' : 'kept';
}
