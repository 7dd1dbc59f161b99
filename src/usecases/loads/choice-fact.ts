/**
 * What the journal remembers of a decision about a load.
 */
import type { ChoiceFact } from '../../journal/facts.ts';
import type { ChoiceRow } from '../../store/rows/quote-rows.ts';

export function choiceFact({ loadId, choice, wentTo }: ChoiceRow): ChoiceFact {
  return { load: loadId, choice, ...(wentTo === null ? {} : { wentTo }) };
}
