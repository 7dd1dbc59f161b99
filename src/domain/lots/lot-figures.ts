/**
 * The figures by which a lot is looked at: the mean of its tests; without tests its expected moisture. What nobody tested
 * is filled from what such feed usually tests, and is named, so that it can be told from a test.
 */
import { TESTED, type Tested } from '../agreement/measures.ts';
import { add, decimal, divide, HUNDRED, subtract, whole } from '../numbers/exact.ts';
import { completeFigures } from '../worth/plausible-figures.ts';
import type { TrialFigures } from '../worth/try-out.ts';
import type { LotDocument } from './lot-document.ts';
import { meanOfTests } from './lot-test.ts';

export interface LotFigures {
  /** Every measure; constituents in percent of dry matter. */
  readonly figures: TrialFigures;
  /** Plain means of the lot's tests; empty for one without any. */
  readonly tested: TrialFigures;
  /** Measures that no test gave. Dry matter is then the seller's expectation, the others usual figures of such feed. */
  readonly assumed: readonly Tested[];
}

/**
 * Without a test, dry matter is what the middle of the expected moisture leaves: 38 to 45 % moisture are 58.5 % dry
 * matter.
 */
export function lotFigures({
  feed,
  tests = [],
  moisture,
}: Pick<LotDocument, 'feed' | 'tests' | 'moisture'>): LotFigures {
  const tested = meanOfTests(tests);
  const middle = divide(add(decimal(moisture.from), decimal(moisture.to)), whole(2));
  const known: TrialFigures = new Map([['dry-matter', subtract(HUNDRED, middle)], ...tested]);
  return {
    figures: completeFigures(feed, known),
    tested,
    assumed: TESTED.filter((measure) => !tested.has(measure)),
  };
}
