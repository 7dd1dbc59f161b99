/**
 * Ordinary loads that a formula has no price for: they would wait for ever, or be called a wrong result.
 */
import { HUNDRED, subtract, ZERO } from '../../numbers/exact.ts';
import { prepareAcceptance } from '../../settlement/acceptance.ts';
import type { UsedFigures } from '../../settlement/measured-load.ts';
import type { TrialFigures } from '../try-out.ts';
import type { Advice } from './advice.ts';
import type { Ground } from './ground.ts';

/** At most one warning, of example loads that the buyer must accept and the formula does not price. */
export function adviseOnUnpriced(ground: Ground): Advice[] {
  const { breaches } = prepareAcceptance(ground.agreement);
  const unpriced = ground.examples
    .filter(({ figures }) => breaches(usedFigures(figures)).length === 0)
    .flatMap(({ label, figures }) => {
      const { impossible } = ground.tryLoad(figures);
      return impossible === undefined ? [] : [{ label, impossible }];
    });
  const [first] = unpriced;
  if (!first) return [];
  const has = unpriced.length === 1 ? 'has' : 'have';
  return [
    {
      kind: 'cannot-price',
      message: `By this formula ${unpriced.length} of ${ground.examples.length} usual loads of such feed ${has} no price. “${first.label}”: ${first.impossible}. Such loads would wait without being paid. Change the formula so that it prices every load that ${ground.agreement.buyer} must accept, or set ranges of acceptance that leave them out.`,
    },
  ];
}

function usedFigures(figures: TrialFigures): UsedFigures {
  const moisture = subtract(HUNDRED, figures.get('dry-matter') ?? ZERO);
  return { ...Object.fromEntries(figures), moisture };
}
