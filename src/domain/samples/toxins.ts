/**
 * Mould toxins above published action levels. The levels are not the agreement's: they stop a load until the buyer has
 * decided, whatever was agreed, and price nothing. FDA, read in state and trade copies in November 2026: aflatoxin
 * 20 µg/kg in corn for dairy cattle, and 0.5 µg/kg in milk; vomitoxin 10 mg/kg in grain for dairy cattle over four
 * months, in a ration with at most 5 mg/kg.
 */
import { MEASURE_NAMES, MEASURE_UNITS, type Tested } from '../agreement/measures.ts';
import { compare, decimal } from '../numbers/exact.ts';
import { printWithEllipsis } from '../numbers/printing.ts';
import { type LabResult, reportedFigure } from './lab-result.ts';

export interface ActionLevel {
  readonly on: Tested;
  /** In the measure's own unit; a figure above it, and not one at it, is too much. */
  readonly above: string;
  /** What the level is, to stand behind the figure. */
  readonly what: string;
  /** What it means for whoever feeds it, with the body that publishes the rule. */
  readonly caution: string;
}

export const ACTION_LEVELS: readonly ActionLevel[] = [
  {
    on: 'aflatoxin',
    above: '20',
    what: 'the FDA action level in corn for dairy cattle',
    caution:
      'Aflatoxin passes into milk, and FDA lets no milk hold more than 0.5 µg/kg. Ask a veterinarian or nutritionist before any of it is fed.',
  },
  {
    on: 'vomitoxin',
    above: '10',
    what: 'the FDA advisory level in grain for dairy cattle over four months',
    caution:
      'FDA advises at most 5 mg/kg of vomitoxin in the whole ration of dairy cattle. Ask a nutritionist before any of it is fed.',
  },
];

/**
 * In words, each level that a result is above: 25 µg/kg of aflatoxin is above 20, and 20 is not. The figure is
 * compared as it was reported, and nothing is rounded.
 */
export function toxinBreaches(result: LabResult): string[] {
  return levelsPassed(result).map(({ on, above, what, figure }) => {
    const unit = MEASURE_UNITS[on];
    return `${MEASURE_NAMES[on]} ${figure} ${unit} is above ${above}, ${what}`;
  });
}

/** What whoever would feed it must know; empty where no level is passed. */
export function toxinCautions(result: LabResult): string[] {
  return levelsPassed(result).map(({ caution }) => caution);
}

function levelsPassed(result: LabResult): (ActionLevel & { readonly figure: string })[] {
  return ACTION_LEVELS.flatMap((level) => {
    const figure = reportedFigure(result, level.on);
    if (figure === undefined || compare(figure, decimal(level.above)) <= 0) return [];
    return [{ ...level, figure: printWithEllipsis(figure) }];
  });
}
