/**
 * A day's tested loads drawn as one strip.
 */
import type { Figures } from '../../documents/figures.ts';
import type { LoadComposition, StripShare } from '../../documents/strip/load-strip.ts';
import {
  add,
  divide,
  type Exact,
  HUNDRED,
  isZero,
  multiply,
  subtract,
  ZERO,
} from '../../domain/numbers/exact.ts';
import { printFixed } from '../../domain/numbers/printing.ts';
import type { DayProgress } from '../../domain/progress/progress.ts';
import { fromPounds } from '../../domain/quantities/units.ts';

/** How tons are printed. */
export interface TonPrinting {
  readonly figures: Figures;
  readonly ton: 'short-ton' | 'tonne';
}

export const TON_PLACES = 2;
const STRIP_PLACES = 1;

/** The tested loads of a day as one: as long as they weigh against the heaviest day. A part not known is not drawn. */
export function dayStrip(day: DayProgress, heaviest: Exact, { figures, ton }: TonPrinting): LoadComposition {
  const isTested = day.loads > day.untestedLoads;
  const tested = isTested ? subtract(day.wet, day.untestedWet) : day.wet;
  const of = (pounds: Exact): StripShare => ({
    share: shareOf(pounds, tested),
    percent: figures.show(printFixed(multiply(divide(pounds, tested), HUNDRED), STRIP_PLACES)),
  });
  const known = [...(day.isStarchKnown ? [day.starch] : []), ...(day.isNdfKnown ? [day.ndf] : [])].reduce(
    add,
    ZERO,
  );
  const rest = subtract(day.dry, known);
  return {
    weight: `${figures.show(printFixed(fromPounds(tested, ton), TON_PLACES))} ${ton === 'tonne' ? 'tonnes' : 'short tons'}`,
    length: shareOf(tested, heaviest),
    water: isTested ? of(subtract(tested, day.dry)) : null,
    starch: isTested && day.isStarchKnown ? of(day.starch) : null,
    fibre: isTested && day.isNdfKnown ? of(day.ndf) : null,
    restPercent: isTested ? of(rest).percent : null,
  };
}

/** A part of a whole as a binary fraction from 0 to 1, for pictures alone. */
export function shareOf(part: Exact, whole: Exact): number {
  if (isZero(whole)) return 0;
  const scale = 1_000_000n;
  const share = divide(part, whole);
  return Math.min(1, Math.max(0, Number((share.n * scale) / share.d) / Number(scale)));
}
