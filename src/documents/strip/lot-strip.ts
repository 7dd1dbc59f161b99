/**
 * The strip of a lot of feed: as long as its wet tons beside other lots, divided by the mean of its tests. A lot without
 * tests is left blank: what is expected of it is not drawn as known.
 */
import type { Tested } from '../../domain/agreement/measures.ts';
import {
  add,
  compare,
  divide,
  type Exact,
  HUNDRED,
  multiply,
  percent,
  subtract,
  ZERO,
} from '../../domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../domain/numbers/printing.ts';
import type { Figures } from '../figures.ts';
import type { LoadComposition, StripShare } from './load-strip.ts';

export interface LotStripData {
  /** Means of the lot's tests, constituents in percent of dry matter; empty without tests. */
  readonly tested: ReadonlyMap<Tested, Exact>;
  /** Its amount as printed: "1,500 short tons wet". */
  readonly weight: string;
  /** Its wet weight, and that of the largest lot beside it, in one unit. */
  readonly amount: Exact;
  readonly largest: Exact;
  readonly figures: Figures;
}

const STRIP_PLACES = 1;
/** A sliver that still can be seen. */
const SHORTEST = 0.08;

/** Mean tests of 58 % dry matter, 56 % starch and 25 % NDF: 42 % water, 32.48 % starch, 14.5 % fibre of the wet feed. */
export function lotStrip({ tested, weight, amount, largest, figures }: LotStripData): LoadComposition {
  const dry = tested.get('dry-matter');
  const wet = (figure: Exact | undefined) => (dry && figure ? multiply(dry, percent(figure)) : undefined);
  const [starch, ndf] = [wet(tested.get('starch')), wet(tested.get('ndf'))];
  // Means of different tests can pass what there is; then fibre is not drawn as known.
  const isTooMuch = dry && compare(add(starch ?? ZERO, ndf ?? ZERO), dry) > 0;
  const parts = { water: dry && subtract(HUNDRED, dry), starch, fibre: isTooMuch ? undefined : ndf };
  const shareOf = (part: Exact | undefined): StripShare | null =>
    part
      ? {
          share: Number(printDecimal(percent(part), 8)),
          percent: figures.show(printFixed(part, STRIP_PLACES)),
        }
      : null;
  const rest = Object.values(parts).reduce<Exact>(
    (left, part) => (part ? subtract(left, part) : left),
    HUNDRED,
  );
  return {
    weight,
    length: Math.min(1, Math.max(SHORTEST, Number(printDecimal(divide(amount, largest), 8)))),
    water: shareOf(parts.water),
    starch: shareOf(parts.starch),
    fibre: shareOf(parts.fibre),
    restPercent: dry ? figures.show(printFixed(rest, STRIP_PLACES)) : null,
  };
}
