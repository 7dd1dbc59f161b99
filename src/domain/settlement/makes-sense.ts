/**
 * Does a formula make sense? Priced by its own formula, without charges, the reference grain should not come to more
 * than its price: more than 100 % of R pays for the same matter twice.
 */

import type { Agreement, PriceTerm, Reference, TermOf } from '../agreement/document.ts';
import type { Part } from '../agreement/measures.ts';
import {
  add,
  compare,
  decimal,
  divide,
  type Exact,
  HUNDRED,
  multiply,
  ONE,
  percent,
  subtract,
  ZERO,
} from '../numbers/exact.ts';
import { printWithEllipsis } from '../numbers/printing.ts';
import { poundsPerBushelAt } from './terms/moisture-table.ts';

/** A warning, in words for both sides, for each reference whose own grain comes to more than its price. */
export function warnOfOverpricing({ references, price }: Pick<Agreement, 'references' | 'price'>): string[] {
  return Object.entries(references).flatMap(([name, reference]) => {
    const share = grainShare(price, { name, reference });
    if (compare(share, HUNDRED) <= 0) return [];
    const shown = printWithEllipsis(share, 2);
    return [
      `The formula pays ${shown} % of the ${name} price for that grain itself (its own dry matter and starch, before charges); more than 100 % pays for some of it twice`,
    ];
  });
}

/** Percentages of 1 or less, which a spreadsheet writes for whole ones: 0.845 where 84.5 was meant. */
export function warnOfFractions({ references, price }: Pick<Agreement, 'references' | 'price'>): string[] {
  const figures: [string, string | undefined][] = [
    ...Object.entries(references).flatMap(([name, reference]): [string, string | undefined][] => [
      [`the dry matter of ${name}`, reference.dryMatterPercent],
      [`the starch of ${name}`, reference.starchPercentOfDryMatter],
    ]),
    ...price.map((term): [string, string | undefined] => [
      `the share of "${term.label}"`,
      'sharePercent' in term ? term.sharePercent : undefined,
    ]),
  ];
  return figures.flatMap(([what, figure]) => {
    if (figure === undefined || compare(decimal(figure), ZERO) === 0 || compare(decimal(figure), ONE) > 0)
      return [];
    const meant = printWithEllipsis(multiply(decimal(figure), HUNDRED));
    return [`${what} is ${figure} %; was ${meant} % meant?`];
  });
}

interface NamedReference {
  readonly name: string;
  readonly reference: Reference;
}

/** What the terms pay for one unit of the reference grain, in percent of R. */
export function grainShare(terms: readonly PriceTerm[], named: NamedReference): Exact {
  return terms.reduce((sum, term) => add(sum, termShare(term, named)), ZERO);
}

function termShare(term: PriceTerm, { name, reference }: NamedReference): Exact {
  if (!('at' in term) || term.at.reference !== name) return ZERO;
  const share = decimal(term.sharePercent ?? '100');
  switch (term.term) {
    case 'constituent':
      return multiply(share, worth(grainPart(term.of, reference), { per: term.at.per, reference }));
    case 'remainder': {
      const left = term.after.reduce((rest, part) => subtract(rest, grainPart(part, reference)), ONE);
      return multiply(share, worth(left, { per: term.at.per, reference }));
    }
    case 'equivalent-bushels':
      return multiply(share, unitsOfGrain(term, reference));
  }
}

/** How many units one unit of the reference grain counts as: one by dry matter and by shrink, at its own moisture. */
function unitsOfGrain({ method }: TermOf<'equivalent-bushels'>, reference: Reference): Exact {
  if (method.kind !== 'table') return ONE;
  const rows = method.rows.map((row) => ({
    moisture: decimal(row.moisture),
    pounds: decimal(row.poundsPerBushel),
  }));
  const found = poundsPerBushelAt(rows, subtract(HUNDRED, decimal(reference.dryMatterPercent)), method);
  return found ? divide(decimal(reference.poundsPerUnit), found.pounds) : ZERO;
}

/** The reference grain's own part; it names no constituent but starch, so the others count as none. */
function grainPart(part: Part, reference: Reference): Exact {
  if (part === 'dry-matter' || part === 'grain-equivalent') return ONE;
  return part === 'starch' ? starchOf(reference) : ZERO;
}

function starchOf({ starchPercentOfDryMatter }: Reference): Exact {
  return starchPercentOfDryMatter === undefined ? ZERO : percent(decimal(starchPercentOfDryMatter));
}

/** A pound of starch at a price per starch carries the value of the whole grain around it. */
function worth(
  part: Exact,
  { per, reference }: { per: 'dry-matter' | 'starch'; reference: Reference },
): Exact {
  if (per === 'dry-matter') return part;
  const starch = starchOf(reference);
  return { n: part.n * starch.d, d: part.d * starch.n };
}
