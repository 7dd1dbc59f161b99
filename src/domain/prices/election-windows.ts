/**
 * The windows in which a seller may name pricing dates.
 */
import type { Agreement } from '../agreement/document.ts';

/** The dates that a seller may name for one series. */
export interface ElectionWindow {
  readonly reference: string;
  readonly from: string;
  readonly to: string;
}

/** A function that gives the windows of a series: one for each reference that follows it by the seller's election. */
export function electionWindows({
  references,
}: Pick<Agreement, 'references'>): (series: string) => ElectionWindow[] {
  return (wanted) =>
    Object.entries(references).flatMap(([reference, { series, rule }]) =>
      rule.kind === 'seller-elects' && series === wanted ? [{ reference, from: rule.from, to: rule.to }] : [],
    );
}
