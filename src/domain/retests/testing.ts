/**
 * Whose figures are in, and whose are still to come.
 */

import type { RetestFigure, Tester } from './figures.ts';
import type { Needs } from './ruling.ts';

/** One tester's figures, in its order. */
export function figuresFrom(later: readonly RetestFigure[], from: Tester): readonly RetestFigure[] {
  return later.filter((figure) => figure.from === from);
}

/** The tests that are missing where each tester is to have reported so many figures in all. */
export function testsNeeded(
  later: readonly RetestFigure[],
  wanted: Partial<Readonly<Record<Tester, number>>>,
): Needs {
  const tests = (Object.entries(wanted) as [Tester, number][])
    .map(([by, count]) => ({ by, results: count - figuresFrom(later, by).length }))
    .filter(({ results }) => results > 0);
  return { kind: 'needs', tests };
}
