/**
 * A load with the figures that its agreement uses: what price terms are worked out from.
 */
import type { Measure } from '../agreement/measures.ts';
import type { DeliveredLoad } from '../deliveries/delivered-load.ts';
import { type Exact, multiply, percent } from '../numbers/exact.ts';
import type { ReferencePrice } from '../prices/reference-price.ts';
import type { LabResult } from '../samples/lab-result.ts';

/** Figures by measure, as the agreement uses them; a measure that was not reported is not there. */
export type UsedFigures = Partial<Record<Measure, Exact>>;

export interface MeasuredLoad {
  readonly load: DeliveredLoad;
  readonly result: LabResult | undefined;
  readonly figures: UsedFigures;
  /** Net pounds × dry matter; undefined without a result. */
  readonly dryPounds: Exact | undefined;
}

/** What a term sees: the load, the prices of the references so far, and the sum of the lines before it. */
export interface PricingContext {
  readonly measured: MeasuredLoad;
  readonly prices: ReadonlyMap<string, ReferencePrice>;
  /** Sum of the rounded lines before this one, in minor units. */
  readonly before: bigint;
}

/** W · D in pounds; undefined while dry matter is not known. */
export function dryPoundsOf(load: DeliveredLoad, figures: UsedFigures): Exact | undefined {
  const dryMatter = figures['dry-matter'];
  return dryMatter && multiply(load.netPounds, percent(dryMatter));
}

/**
 * A figure that the settlement has made sure of before it evaluates a term.
 * Throws where it is missing: that is a defect, since a load without it waits.
 */
export function needed<Value>(value: Value | undefined, what: string): Value {
  if (value === undefined) throw new Error(`A term was evaluated without its ${what}`);
  return value;
}
