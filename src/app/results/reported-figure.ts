/**
 * A figure as a laboratory gave it, with its unit.
 */
import { isConstituent, MEASURE_UNITS } from '../../domain/agreement/measures.ts';
import type { ResultStory } from '../../usecases/results/read-result-stories.ts';

/** "54 % of dry matter"; on as-fed weight "31.97 % of as-fed weight". */
export function reportedFigure(
  { measure, figure }: ResultStory['figures'][number],
  basis: ResultStory['basis'],
): string {
  const unit = isConstituent(measure) && basis === 'as-fed' ? '% of as-fed weight' : MEASURE_UNITS[measure];
  return `${figure} ${unit}`.trim();
}
