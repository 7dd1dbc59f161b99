/**
 * What the journal remembers of a sample: how it was taken, sealed and handed on.
 */
import type { PartHandoverFact, SamplePartFact, SampleTakingFact } from '../../journal/facts.ts';
import type { HandoverRow, PartRow, TakingRow } from '../../store/rows/sample-rows.ts';

export function takingFact({ sample, takenAt, takenBy, how }: TakingRow): SampleTakingFact {
  return { sample, takenAt, takenBy, how };
}

export function partFact(row: PartRow): SamplePartFact {
  const { sample, part, seal, isAirtight, keptWhere, keptUntil } = row;
  return { sample, part, seal, airtight: isAirtight, keptWhere, keptUntil };
}

export function handoverFact(row: HandoverRow): PartHandoverFact {
  const { partId, handedAt, toWhom, keptWhere, keptUntil, isSealIntact } = row;
  return { part: partId, handedAt, toWhom, keptWhere, keptUntil, sealIntact: isSealIntact };
}
