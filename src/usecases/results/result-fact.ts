/**
 * A result's row as the journal remembers it, and as the settlement reads it.
 */
import { TESTED, type Tested } from '../../domain/agreement/measures.ts';
import { decimal } from '../../domain/numbers/exact.ts';
import type { Basis, LabResult } from '../../domain/samples/lab-result.ts';
import type { ResultFact } from '../../journal/facts.ts';
import type { ResultRow } from '../../store/rows/result-rows.ts';

/** What the journal remembers of a result: the figures that were reported, as they were written. */
export function resultFact(row: ResultRow): ResultFact {
  const { sample, laboratory, method, reportedOn, basis, figures } = row;
  const { version, reason, dryMatterMethod, enteredBy, report } = row;
  const reported = TESTED.flatMap((measure): [string, string][] => {
    const figure = figures[measure];
    return figure === null ? [] : [[measure, figure]];
  });
  return {
    ...{ sample, laboratory, method, reportedOn, basis, figures: Object.fromEntries(reported) },
    ...(version === 1 ? {} : { version: String(version) }),
    ...(reason === null ? {} : { reason }),
    ...(dryMatterMethod === null ? {} : { dryMatterMethod }),
    ...(enteredBy === null ? {} : { enteredBy }),
    ...(report === null ? {} : { report }),
  };
}

/** A row as a laboratory's result. Throws where the row could not have been recorded. */
export function labResult({ sample, basis, figures }: ResultRow): LabResult {
  const reported = TESTED.filter(
    (measure): measure is Tested => measure !== 'dry-matter' && figures[measure] !== null,
  );
  return {
    sample,
    basis: basis as Basis,
    dryMatter: decimal(figures['dry-matter'] ?? ''),
    reported,
    figures: reported.map((measure) => decimal(figures[measure] ?? '')),
  };
}

/** What the laboratory reported, whoever entered it. */
export function reportedText(row: ResultRow): string {
  const { sample, laboratory, method, reportedOn, basis, figures, dryMatterMethod } = resultFact(row);
  return JSON.stringify([sample, laboratory, method, reportedOn, basis, figures, dryMatterMethod ?? null]);
}
