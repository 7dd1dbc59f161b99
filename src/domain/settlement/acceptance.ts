/**
 * Whether a load lies in the ranges that the buyer must accept. The ends of a range belong to it, and figures are
 * compared as they are used, unrounded otherwise.
 */
import type { Agreement } from '../agreement/document.ts';
import { MEASURE_NAMES, MEASURE_UNITS, type Measure } from '../agreement/measures.ts';
import { compare, decimal, type Exact } from '../numbers/exact.ts';
import { tell } from './derivation.ts';
import type { UsedFigures } from './measured-load.ts';

export type Choice = 'accept' | 'refuse';

interface Range {
  readonly on: Measure;
  readonly below: Exact | undefined;
  readonly above: Exact | undefined;
}

export interface Acceptance {
  readonly needs: readonly Measure[];
  /** In words, each range that the known figures lie outside of: "moisture 51.2 % as-fed is above 50". */
  readonly breaches: (figures: UsedFigures) => readonly string[];
}

/** An agreement's ranges, their ends read once; without any, nothing breaches them. */
export function prepareAcceptance({ acceptance }: Pick<Agreement, 'acceptance'>): Acceptance {
  const ranges = (acceptance ?? []).map(
    ({ on, below, above }): Range => ({
      on,
      below: below === undefined ? undefined : decimal(below),
      above: above === undefined ? undefined : decimal(above),
    }),
  );
  return {
    needs: ranges.map(({ on }) => on),
    breaches: (figures) => ranges.flatMap((range) => breachOf(range, figures[range.on])),
  };
}

function breachOf({ on, below, above }: Range, figure: Exact | undefined): string[] {
  if (figure === undefined) return [];
  const side =
    below !== undefined && compare(figure, below) < 0
      ? `below ${tell(below)}`
      : above !== undefined && compare(figure, above) > 0
        ? `above ${tell(above)}`
        : undefined;
  if (side === undefined) return [];
  const unit = MEASURE_UNITS[on];
  return [`${MEASURE_NAMES[on]} ${tell(figure)}${unit === '' ? '' : ` ${unit}`} is ${side}`];
}
