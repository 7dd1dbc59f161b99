/**
 * Edges of the accepted ranges that ordinary loads lie on: one laboratory would have the load taken, another refused.
 */
import type { AcceptanceRange } from '../../agreement/document.ts';
import { MEASURE_NAMES } from '../../agreement/measures.ts';
import { compare, decimal, type Exact, HUNDRED, isNegative, negate, subtract } from '../../numbers/exact.ts';
import { printFixed } from '../../numbers/printing.ts';
import { laboratoryScatter } from '../laboratory-scatter.ts';
import type { Advice } from './advice.ts';
import { tellTwoTests } from './cliff-words.ts';
import { type Ground, tellFigure, totalOf } from './ground.ts';
import { readRetestBlock } from './retest-block.ts';

/** A warning for each edge within R of a usual load, where no second test is agreed for that measure. */
export function adviseOnAcceptance(ground: Ground): Advice[] {
  const retested = readRetestBlock(ground.agreement.retest).measures;
  return (ground.agreement.acceptance ?? [])
    .filter(({ on }) => !retested.includes(on === 'moisture' ? 'dry-matter' : on) && !retested.includes(on))
    .flatMap((range) =>
      (['below', 'above'] as const).flatMap((side) => adviseOnEdge(ground, { range, side })),
    );
}

function adviseOnEdge(
  ground: Ground,
  { range, side }: { readonly range: AcceptanceRange; readonly side: 'below' | 'above' },
): Advice[] {
  const { on } = range;
  const written = range[side];
  const usual = usualFigure(ground, on);
  if (written === undefined || !usual) return [];
  const edge = decimal(written);
  const scatter = laboratoryScatter(on, edge);
  const total = totalOf(ground, ground.tryLoad(ground.usual));
  if (!scatter || compare(distance(usual, edge), scatter.low) > 0) return [];
  const name = MEASURE_NAMES[on];
  const price = total ? ` The whole load is at stake, ${ground.tellMoney(total)} by this formula.` : '';
  return [
    {
      kind: 'cliff',
      message: `${ground.agreement.buyer} may refuse a load ${side} ${tellFigure(on, edge)}, and such feed usually tests about ${tellFigure(on, usual)}. ${tellTwoTests(scatter, name)}, so chance decides which of two ordinary loads is refused.${price} Move the edge at least ${printFixed(scatter.low, 1)} points away from ordinary loads, or agree that a second test decides.`,
    },
  ];
}

function usualFigure({ usual }: Ground, on: AcceptanceRange['on']): Exact | undefined {
  if (on !== 'moisture') return usual.get(on);
  const dryMatter = usual.get('dry-matter');
  return dryMatter && subtract(HUNDRED, dryMatter);
}

function distance(one: Exact, other: Exact): Exact {
  const apart = subtract(one, other);
  return isNegative(apart) ? negate(apart) : apart;
}
