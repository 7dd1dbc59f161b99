/**
 * What a referee was to judge, where it never tested.
 */

import type { RetestFigure, Tester } from '../figures.ts';
import type { LaboratoryMethod } from '../ruling.ts';
import { figuresFrom } from '../testing.ts';

/** By ASTM D3244 the two retests alone, since the first ones are dropped; else the first figure with its laboratory's own. */
export function toBeJudged(
  { method }: LaboratoryMethod,
  { first, counted }: { readonly first: RetestFigure; readonly counted: readonly RetestFigure[] },
): readonly RetestFigure[] {
  const last = (from: Tester) => figuresFrom(counted, from).slice(-1);
  if (method === 'astm-d3244') return [...last('seller'), ...last('buyer')];
  return [first, ...figuresFrom(counted, 'laboratory')];
}
