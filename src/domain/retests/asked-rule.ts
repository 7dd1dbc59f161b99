/**
 * The rule by which one question is decided, taken from the agreement when it is asked, so that it can be read and worked
 * out years later from the question alone.
 */

import { z } from 'zod';
import {
  type DecidingMethod,
  decidingMethod,
  NO_REFEREE,
  type Questioned,
  type RetestRules,
} from '../agreement/retest-rules.ts';
import type { CourseRules, EnteredFigure } from './course.ts';
import { rule } from './decide.ts';
import type { RetestFigure } from './figures.ts';
import { judgedWithoutReferee } from './methods/without-referee.ts';
import type { Ruling } from './ruling.ts';
import { USUAL_TEST_DAYS } from './time-limits.ts';
import { ruleOnWeight, type WeighedTwice } from './weights.ts';

const askedRule = z.strictObject({
  method: decidingMethod,
  fee: z.enum(['asker-unless-moved', 'split', 'further-from-referee']),
  testDays: z.string(),
  ifNoReferee: z.enum(NO_REFEREE),
  /** The referee laboratory's name; null where none is agreed. */
  referee: z.string().nullable(),
  rounding: z.enum(['half-up', 'half-even']),
});
export type AskedRule = z.infer<typeof askedRule>;

/** The rule for one figure; undefined where the agreement has none for it. */
export function ruleFor(
  rules: RetestRules,
  about: Questioned,
  rounding: AskedRule['rounding'],
): AskedRule | undefined {
  const method = rules.measures[about];
  if (!method) return undefined;
  return {
    method,
    fee: rules.fee,
    testDays: rules.testWithinDays ?? String(USUAL_TEST_DAYS),
    ifNoReferee: rules.ifNoReferee ?? 'first-stands',
    referee: rules.referee ?? null,
    rounding,
  };
}

/** A rule that was stored. Throws where it is none. */
export function parseRule(text: string): AskedRule {
  return askedRule.parse(JSON.parse(text));
}

/** A figure that came in; of a second scale with both weighings. */
export interface CaseFigure extends EnteredFigure {
  readonly weighed: WeighedTwice | undefined;
}

/** How a question by this rule runs; of a weight, `weighed` is the ticket as it was questioned. */
export function courseRules<Figure extends CaseFigure>(
  { method, testDays, ifNoReferee }: AskedRule,
  { first, weighed }: { readonly first: RetestFigure; readonly weighed: WeighedTwice | undefined },
): CourseRules<Figure> {
  const days = Number(testDays);
  if (method.method === 'second-scale') {
    return {
      testDays: days,
      withoutReferee: () => undefined,
      decide: (counted) => bySecondScale(method, { first, weighed, counted }),
    };
  }
  return {
    testDays: days,
    decide: (counted) => rule(method, { first, later: counted }),
    withoutReferee: (counted) =>
      ifNoReferee === 'mean-of-others' ? judgedWithoutReferee(method, { first, counted }) : undefined,
  };
}

function bySecondScale(
  method: Extract<DecidingMethod, { readonly method: 'second-scale' }>,
  of: {
    readonly first: RetestFigure;
    readonly weighed: WeighedTwice | undefined;
    readonly counted: readonly CaseFigure[];
  },
): Ruling {
  const [second] = of.counted;
  if (!second) return { kind: 'needs', tests: [{ by: 'second-scale', results: 1 }] };
  if (!of.weighed || !second.weighed) throw new Error('A weight is decided without its weighings');
  const { because } = ruleOnWeight(method, { first: of.weighed, second: second.weighed });
  const counts = because === 'first-stands' ? of.first : second;
  return { kind: 'decided', value: counts.value, from: [counts], because };
}
