/**
 * Ordinary loads that a formula has no price for: they would wait for ever, or be called a wrong result.
 */
import type { Advice } from './advice.ts';
import type { Ground } from './ground.ts';

/** One warning for each reason that leaves an example load without a price. */
export function adviseOnUnpriced(ground: Ground): Advice[] {
  const reasons = new Map<string, string>();
  for (const { label, figures } of ground.examples) {
    const { impossible } = ground.tryLoad(figures);
    if (impossible !== undefined && !reasons.has(impossible)) reasons.set(impossible, label);
  }
  return [...reasons].slice(0, 2).map(([reason, label]) => ({
    kind: 'cannot-price',
    message: `${label}, of the kind that this feed brings, has no price by this formula: ${reason}. Change the formula so that it prices every load that ${ground.agreement.buyer} is to accept.`,
  }));
}
