/**
 * A laboratory's figures for one sample, as reported, and the same figures as an agreement uses them: percent of dry
 * matter, rounded where the agreement's `tests` say so.
 */
import type { Agreement } from '../agreement/document.ts';
import { isConstituent, type Measure, type Tested } from '../agreement/measures.ts';
import { divide, type Exact, HUNDRED, multiply, subtract } from '../numbers/exact.ts';
import { type Rounding, roundTo } from '../numbers/rounding.ts';

export type Basis = 'as-fed' | 'dry-matter';

export interface LabResult {
  readonly sample: string;
  /** What the six constituents are percent of; the other measures have a scale of their own. */
  readonly basis: Basis;
  readonly dryMatter: Exact;
  /** Measures beside dry matter that the laboratory reports on, in the order of `figures`. */
  readonly reported: readonly Tested[];
  readonly figures: readonly (Exact | undefined)[];
}

/** One figure as the laboratory gave it, or undefined. */
export function reportedFigure(result: LabResult, measure: Tested): Exact | undefined {
  if (measure === 'dry-matter') return result.dryMatter;
  return result.figures[result.reported.indexOf(measure)];
}

/** One constituent in percent of dry matter, exactly: 31.97 % as-fed at 59.2 % dry matter is 54.003… */
export function onDryMatter(result: LabResult, measure: Tested): Exact | undefined {
  const figure = reportedFigure(result, measure);
  if (figure === undefined || result.basis === 'dry-matter' || !isConstituent(measure)) return figure;
  return multiply(divide(figure, result.dryMatter), HUNDRED);
}

/** How an agreement wants figures rounded before any use. */
export interface TestRules {
  readonly rounding: Rounding;
  readonly decimals: ReadonlyMap<Tested, number>;
}

export function testRules(agreement: Pick<Agreement, 'tests' | 'rounding'>): TestRules {
  const decimals = new Map<Tested, number>();
  for (const [measure, rule] of Object.entries(agreement.tests ?? {})) {
    if (rule) decimals.set(measure as Tested, Number(rule.decimals));
  }
  return { rounding: agreement.rounding ?? 'half-up', decimals };
}

/** A measure as the agreement uses it, in its own unit; moisture is 100 less the dry matter that is used. */
export function usedFigure(result: LabResult, measure: Measure, rules: TestRules): Exact | undefined {
  if (measure === 'moisture') {
    const dryMatter = usedFigure(result, 'dry-matter', rules);
    return dryMatter && subtract(HUNDRED, dryMatter);
  }
  const value = onDryMatter(result, measure);
  const places = rules.decimals.get(measure);
  return value === undefined || places === undefined ? value : roundTo(value, places, rules.rounding);
}
