/**
 * How a sealed part is kept, by its last hand-over.
 */
import type { LocalDate } from '../../domain/dates/local-date.ts';
import type { KeptPart } from '../../domain/retests/kept-parts.ts';
import type { HandoverRow, PartRow } from '../../store/rows/sample-rows.ts';

/** `handovers` are the part's own, in the order in which they were recorded. */
export function keptPart(
  { part, seal, keptUntil }: Pick<PartRow, 'part' | 'seal' | 'keptUntil'>,
  handovers: readonly HandoverRow[],
): KeptPart {
  const now = handovers.at(-1);
  return {
    part,
    seal,
    // A seal that was found broken once is not whole again.
    isSealIntact: handovers.every(({ isSealIntact }) => isSealIntact),
    keptUntil: (now ? now.keptUntil : keptUntil) as LocalDate | null,
  };
}

/** The same of several parts, with the hand-overs of all. */
export function keptParts(parts: readonly PartRow[], handovers: readonly HandoverRow[]): readonly KeptPart[] {
  return parts.map((part) =>
    keptPart(
      part,
      handovers.filter(({ partId }) => partId === part.id),
    ),
  );
}
