/**
 * What one would ask about a reported figure before it is recorded: it counts by silence, so a slip must be seen.
 */
import { compare, decimal, type Exact, multiply, whole } from '../../domain/numbers/exact.ts';
import { distance } from '../../domain/retests/figures.ts';
import { laboratoryScatter } from '../../domain/worth/laboratory-scatter.ts';
import type { RetestFigureFact } from '../../journal/retest-facts.ts';
import type { RetestCase } from './retest-case.ts';

/** Further from the first figure than this many times what the asker claims, it is asked about. Common practice, no source. */
const MOST_TIMES = whole(3);
/** A test that costs more is asked about, in whole money of any currency. Common practice, no source. */
const USUAL_COST = whole(500);

/** Questions to whoever reports it, in sentences. */
export function doubtFigure(
  { about, row, first }: RetestCase,
  { value, charge }: Pick<RetestFigureFact, 'value' | 'charge'>,
): readonly (string | undefined)[] {
  const off = distance(first.value, decimal(value));
  const claimed = multiply(MOST_TIMES, distance(first.value, decimal(row.fact.claimed)));
  const scatter = about === 'weight' ? undefined : laboratoryScatter(about, first.value)?.high;
  const isFar = compare(off, claimed) > 0 && !isWithin(off, scatter);
  return [
    isFar
      ? `${value} lies far from ${row.fact.first}, which stands, and from ${row.fact.claimed}`
      : undefined,
    compare(decimal(charge), USUAL_COST) > 0 ? `${charge} is much for one test` : undefined,
  ];
}

function isWithin(off: Exact, scatter: Exact | undefined): boolean {
  return scatter !== undefined && compare(off, scatter) <= 0;
}
