/**
 * What can make a price jump at all: schedules in whole points, bushel tables read row by row, bushels and tests that
 * are rounded coarsely; and the agreement as it would be without any of these.
 */
import type { Agreement, PriceTerm } from '../../agreement/document.ts';
import { type Measure, TESTED, type Tested } from '../../agreement/measures.ts';
import { measuresNeeded } from '../../settlement/prepare-term.ts';

/** Bushels kept to this many decimals move less than anyone would argue about. */
const FINE_BUSHELS = 2;

/** The measure on which a term by itself moves in steps. */
export function steppedBy(term: PriceTerm): Tested | undefined {
  if (term.term === 'schedule') return term.count === 'exact' ? undefined : testedAs(term.on);
  if (term.term !== 'equivalent-bushels') return undefined;
  const byRow = term.method.kind === 'table' && term.method.between === 'next-wetter';
  const rounded = term.bushelDecimals !== undefined && Number(term.bushelDecimals) < FINE_BUSHELS;
  return byRow || rounded ? 'dry-matter' : undefined;
}

/** Measures whose figures are so coarse, by the agreement's rounding of tests, that a price can jump. */
export function coarselyTested({ price, tests }: Agreement): readonly Tested[] {
  const needs = new Set(price.flatMap(measuresNeeded).map(testedAs));
  return TESTED.filter((measure) => {
    const decimals = tests?.[measure]?.decimals;
    if (decimals === undefined || !needs.has(measure)) return false;
    // A tenth moves less than any scatter that is published; only on the scale of pH is it coarse.
    return Number(decimals) === 0 || (measure === 'ph' && Number(decimals) === 1);
  });
}

function testedAs(measure: Measure): Tested {
  return measure === 'moisture' ? 'dry-matter' : measure;
}

/** The agreement without what makes its price jump: schedules in whole points, rows, and rounded figures. */
export function smoothedAgreement({ tests: _, ...agreement }: Agreement): Agreement | undefined {
  const price = agreement.price.flatMap((term): PriceTerm[] => {
    if (term.term === 'schedule' && term.count !== 'exact') return [];
    if (term.term !== 'equivalent-bushels') return [term];
    const { bushelDecimals: __, method, ...rest } = term;
    return [{ ...rest, method: method.kind === 'table' ? { ...method, between: 'linear' } : method }];
  });
  return price.length === 0 ? undefined : { ...agreement, price };
}
