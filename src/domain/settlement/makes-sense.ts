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
  larger,
  multiply,
  ONE,
  percent,
  smaller,
  subtract,
  ZERO,
} from '../numbers/exact.ts';
import { printWithEllipsis, printWritten } from '../numbers/printing.ts';
import { dryPoundsPerUnit, pricePerPound } from '../prices/reference-price.ts';
import { poundsPerBushelAt } from './terms/moisture-table.ts';

type Priced = Pick<Agreement, 'references' | 'price'>;

/** Things about an agreement's price that both sides should look at before they sign, in words. */
export function warnOfPrice(agreement: Priced): string[] {
  return [...warnOfFractions(agreement), ...warnOfOverpricing(agreement)];
}

/** A warning for each reference whose own grain comes to more than its price. */
export function warnOfOverpricing({ references, price }: Priced): string[] {
  return Object.entries(references).flatMap(([name, reference]) => {
    const alike = Object.entries(references).filter(([, other]) => followSame(other, reference));
    const share = grainShare(price, { grain: reference, priced: new Map(alike) });
    if (compare(share, HUNDRED) <= 0) return [];
    const shown = printWithEllipsis(share, 2);
    return [
      `The formula pays ${shown} % of the ${name} price for that grain itself (its own dry matter and starch, before charges); more than 100 % pays for some of it twice`,
    ];
  });
}

/** Two references to one series are the same money, whatever quote of it each takes. */
function followSame(one: Reference, other: Reference): boolean {
  return one === other || (one.series !== undefined && one.series === other.series);
}

/** Percentages of 1 or less, which a spreadsheet writes for whole ones: 0.845 where 84.5 was meant. */
export function warnOfFractions({ references, price }: Priced): string[] {
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
    return [`${what} is ${printWritten(figure)} %; was ${meant} % meant?`];
  });
}

interface GrainToPrice {
  /** The grain, by its own pounds, dry matter and starch. */
  readonly grain: Reference;
  /** The references that are taken to stand at the grain's own price; what terms pay by others is not counted. */
  readonly priced: ReadonlyMap<string, Reference>;
}

/** What the terms pay for one unit of a reference grain, in percent of its price: 160 where its fibre is paid twice. */
export function grainShare(terms: readonly PriceTerm[], { grain, priced }: GrainToPrice): Exact {
  return terms.reduce((sum, term) => {
    const reference = 'at' in term ? priced.get(term.at.reference) : undefined;
    return reference ? add(sum, termShare(term, { grain, reference })) : sum;
  }, ZERO);
}

interface GrainAt {
  readonly grain: Reference;
  readonly reference: Reference;
}

function termShare(term: PriceTerm, at: GrainAt): Exact {
  switch (term.term) {
    case 'constituent':
      return multiply(shareOf(term), multiply(poundsOf(grainPart(term.of, at), at), poundWorth(term, at)));
    case 'remainder': {
      const left = term.after.reduce((rest, part) => subtract(rest, grainPart(part, at)), ONE);
      return multiply(shareOf(term), multiply(poundsOf(left, at), poundWorth(term, at)));
    }
    case 'equivalent-bushels':
      return multiply(shareOf(term), unitsOfGrain(term, at));
    case 'flat':
    case 'schedule':
    case 'limit':
      return ZERO;
  }
}

function shareOf({ sharePercent }: { readonly sharePercent?: string | undefined }): Exact {
  return decimal(sharePercent ?? '100');
}

function poundsOf(part: Exact, { grain }: GrainAt): Exact {
  return multiply(dryPoundsPerUnit(grain), part);
}

/** Worth of a pound in units of R. */
function poundWorth({ at }: TermOf<'constituent'> | TermOf<'remainder'>, { reference }: GrainAt): Exact {
  return pricePerPound(ONE, reference, at.per);
}

/** The grain's own part of its dry matter; a reference names no constituent but starch, so the others count as none. */
function grainPart(part: Part, { grain, reference }: GrainAt): Exact {
  if (part === 'dry-matter') return ONE;
  const starch = starchOf(grain);
  if (part === 'starch') return starch ?? ZERO;
  if (part !== 'grain-equivalent') return ZERO;
  // Without a starch of its own the grain is taken to be all grain.
  return starch === undefined ? ONE : smaller(ONE, divide(starch, starchOf(reference) ?? ONE));
}

function starchOf({ starchPercentOfDryMatter }: Reference): Exact | undefined {
  return starchPercentOfDryMatter === undefined ? undefined : percent(decimal(starchPercentOfDryMatter));
}

/** How many units of the reference one unit of the grain counts as, at the grain's own moisture. */
function unitsOfGrain({ method }: TermOf<'equivalent-bushels'>, { grain, reference }: GrainAt): Exact {
  const pounds = decimal(grain.poundsPerUnit);
  const dryMatter = decimal(grain.dryMatterPercent);
  switch (method.kind) {
    case 'dry-matter':
      return divide(dryPoundsPerUnit(grain), dryPoundsPerUnit(reference));
    case 'shrink': {
      const points = larger(ZERO, subtract(decimal(reference.dryMatterPercent), dryMatter));
      const shrink = percent(multiply(points, decimal(method.percentPerPoint)));
      const kept = larger(ZERO, subtract(ONE, shrink));
      return divide(multiply(pounds, kept), decimal(reference.poundsPerUnit));
    }
    case 'table': {
      const rows = method.rows.map((row) => ({
        moisture: decimal(row.moisture),
        pounds: decimal(row.poundsPerBushel),
      }));
      const found = poundsPerBushelAt(rows, subtract(HUNDRED, dryMatter), method);
      return found ? divide(pounds, found.pounds) : ZERO;
    }
  }
}
