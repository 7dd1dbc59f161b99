/**
 * What an agreement pays for each of some example loads, by its own settlement.
 */
import type { Agreement } from '../agreement/document.ts';
import { readerUnits } from '../agreement/reader-units.ts';
import type { ExampleLoad } from './example-loads.ts';
import { type Haul, haulFor } from './trial-haul.ts';
import { prepareTryOut, type TriedPrice } from './try-out.ts';

export interface PricedExample {
  readonly load: ExampleLoad;
  /** Money for the load, per ton as fed and per ton of dry matter, or why there is none. */
  readonly price: TriedPrice;
}

export interface ExamplePricing {
  readonly loads: readonly ExampleLoad[];
  /** The quote of each reference that follows a series, by name, as a decimal string. */
  readonly quotes: ReadonlyMap<string, string>;
  /** Without one, an agreement that prices the haul is tried over a usual one: 10 miles or 16 km. */
  readonly distance?: Haul | undefined;
}

/** Each load with its price; tons are those that the agreement's people think in. */
export function priceExamples(
  agreement: Agreement,
  { loads, quotes, distance }: ExamplePricing,
): readonly PricedExample[] {
  const { ton } = readerUnits(agreement);
  const haul = haulFor(agreement, distance);
  return loads.map((load) => {
    const price = prepareTryOut(agreement, {
      quotes,
      load: { net: load.net, unit: load.unit, distance: haul },
      ton,
    });
    return { load, price: price(load.figures) };
  });
}
