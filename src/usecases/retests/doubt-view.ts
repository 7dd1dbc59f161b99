/**
 * A doubt beside the scatter of the test, as the reader writes figures.
 */
import type { Figures } from '../../documents/figures.ts';
import { add, decimal, type Exact } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import type { AgreedScatter, Doubt } from '../../domain/retests/doubt.ts';
import { ruleOnWeight, type SecondScale, type WeighedTwice } from '../../domain/retests/weights.ts';

export interface DoubtView {
  readonly apart: string;
  readonly is: Doubt['is'];
  readonly agreed: { readonly limit: string; readonly is: AgreedScatter['is'] } | undefined;
  /** Of a weight: what two scales like that of the ticket may be off by together, in pounds. */
  readonly scales: string | undefined;
  readonly isByPublished: Doubt['is'];
  readonly published: { readonly low: string; readonly high: string; readonly source: string } | undefined;
}

/** Published limits are printed to two decimals. */
export function doubtView(
  { apart, is, isByPublished, agreed, published }: Doubt,
  figures: Figures,
): DoubtView {
  const print = (value: Exact, places?: number) => figures.show(printDecimal(value, places));
  return {
    apart: print(apart),
    is,
    isByPublished,
    scales: undefined,
    agreed: agreed && { limit: figures.show(agreed.written), is: agreed.is },
    published: published && {
      low: print(published.low, 2),
      high: print(published.high, 2),
      source: published.source,
    },
  };
}

/** A weight beside what the scales may be off by, as if the second were like the first; the ticket may name none. */
export function weightDoubtView(
  method: SecondScale,
  { weighed, claimed }: { readonly weighed: WeighedTwice; readonly claimed: string },
  figures: Figures,
): DoubtView {
  const second = { ...weighed, gross: add(decimal(claimed), weighed.tare) };
  const { apart, allowed, because } = ruleOnWeight(method, { first: weighed, second });
  const isKnown = weighed.grossScale !== undefined && weighed.tareScale !== undefined;
  return {
    apart: figures.show(printDecimal(apart)),
    is: !isKnown ? 'unknown' : because === 'first-stands' ? 'within' : 'beyond',
    scales: isKnown ? figures.show(printDecimal(allowed)) : undefined,
    isByPublished: 'unknown',
    agreed: undefined,
    published: undefined,
  };
}
