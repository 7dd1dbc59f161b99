/**
 * A lot's tests as figures to price: what a test says, the mean of several, and what cannot be.
 */
import { TESTED, type Tested } from '../agreement/measures.ts';
import { add, compare, decimal, divide, type Exact, HUNDRED, ZERO } from '../numbers/exact.ts';
import type { TrialFigures } from '../worth/try-out.ts';

/** The figures of a test by measure, each a decimal string; other keys are not figures. */
export type TestFigures = { readonly [Measure in Tested]?: string | undefined };

/** What cannot be, in sentences; empty where all can. */
export function checkLotTest(test: TestFigures): string[] {
  const of = (measure: Tested) => decimal(test[measure] ?? '0');
  const faults: string[] = [];
  if (compare(add(of('starch'), of('ndf')), HUNDRED) > 0) {
    faults.push('cannot be: starch and NDF together pass 100 % of dry matter');
  }
  if (test.ndf !== undefined && compare(of('adf'), of('ndf')) > 0) {
    faults.push('cannot be: ADF is above NDF, which holds it');
  }
  return faults;
}

/** A test as exact figures. */
export function trialFigures(test: TestFigures): TrialFigures {
  return new Map(
    TESTED.flatMap((measure) => {
      const figure = test[measure];
      return figure === undefined ? [] : [[measure, decimal(figure)] as const];
    }),
  );
}

/** The plain mean of each measure over the tests that have it: 54 and 58 are 56. */
export function meanOfTests(tests: readonly TestFigures[]): TrialFigures {
  return new Map(
    TESTED.flatMap((measure) => {
      const figures = tests.flatMap((test) => test[measure] ?? []).map(decimal);
      if (figures.length === 0) return [];
      const sum = figures.reduce<Exact>((total, figure) => add(total, figure), ZERO);
      return [[measure, divide(sum, decimal(String(figures.length)))] as const];
    }),
  );
}
