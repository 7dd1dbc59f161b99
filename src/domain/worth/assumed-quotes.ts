/**
 * Quotes to look at a formula with, where nobody has given any: inside what the agreement itself allows, else about
 * what corn has cost. They price nothing; what is said with them says so.
 */
import type { Agreement, Reference } from '../agreement/document.ts';
import {
  add,
  decimal,
  divide,
  type Exact,
  larger,
  multiply,
  ratio,
  subtract,
  ZERO,
} from '../numbers/exact.ts';
import { printDecimal } from '../numbers/printing.ts';
import { dryPoundsPerUnit } from '../prices/reference-price.ts';

/** Money per pound of dry grain: 0.09 is 4.26 for a 56-lb bushel at 15.5 % moisture (common practice, no source). */
const USUAL_PER_DRY_POUND = ratio(9n, 100n);
const TENTH = ratio(1n, 10n);

/** A quote for each reference that follows a series: the given one, or one between its floor and its ceiling. */
export function assumedQuotes(
  { references }: Pick<Agreement, 'references'>,
  given: ReadonlyMap<string, string> = new Map(),
): ReadonlyMap<string, string> {
  return new Map(
    Object.entries(references).flatMap(([name, reference]): [string, string][] =>
      reference.rule.kind === 'fixed'
        ? []
        : [[name, given.get(name) ?? printDecimal(usualQuote(reference), 2)]],
    ),
  );
}

function usualQuote(reference: Reference): Exact {
  const basis = reference.basis === undefined ? ZERO : decimal(reference.basis);
  return larger(ZERO, subtract(usualPrice(reference), basis));
}

/** Half-way between floor and ceiling, or a tenth inside the only one of them. */
function usualPrice(reference: Reference): Exact {
  const floor = reference.floor === undefined ? undefined : decimal(reference.floor);
  const ceiling = reference.ceiling === undefined ? undefined : decimal(reference.ceiling);
  if (floor && ceiling) return divide(add(floor, ceiling), { n: 2n, d: 1n });
  if (floor) return add(floor, multiply(larger(floor, ZERO), TENTH));
  if (ceiling) return subtract(ceiling, multiply(larger(ceiling, ZERO), TENTH));
  return multiply(USUAL_PER_DRY_POUND, dryPoundsPerUnit(reference));
}
