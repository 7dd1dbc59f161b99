/**
 * A doubt beside the scatter of the test, as the reader writes figures.
 */
import type { Figures } from '../../documents/figures.ts';
import type { Exact } from '../../domain/numbers/exact.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import type { AgreedScatter, Doubt } from '../../domain/retests/doubt.ts';

export interface DoubtView {
  readonly apart: string;
  readonly is: Doubt['is'];
  readonly agreed: { readonly limit: string; readonly is: AgreedScatter['is'] } | undefined;
  readonly published: { readonly low: string; readonly high: string; readonly source: string } | undefined;
}

/** Published limits are printed to two decimals. */
export function doubtView({ apart, is, agreed, published }: Doubt, figures: Figures): DoubtView {
  const print = (value: Exact, places?: number) => figures.show(printDecimal(value, places));
  return {
    apart: print(apart),
    is,
    agreed: agreed && { limit: figures.show(agreed.written), is: agreed.is },
    published: published && {
      low: print(published.low, 2),
      high: print(published.high, 2),
      source: published.source,
    },
  };
}
