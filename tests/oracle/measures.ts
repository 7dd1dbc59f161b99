/**
 * A sample's figures as the terms use them: percent of dry matter (or the measure's own unit),
 * converted from the basis exactly, then rounded where the agreement's `tests` says so.
 */
import {
  divide,
  type Fraction,
  hundred,
  multiply,
  parse,
  type Rounding,
  rounded,
  subtract,
} from './fraction.ts';
import {
  type Agreement,
  constituents,
  type Measure,
  otherMeasures,
  type SampleRow,
  sampleColumns,
  type Term,
  type TestedMeasure,
} from './season.ts';

export type Figures = ReadonlyMap<Measure, Fraction>;

export function figuresOf(sample: SampleRow, agreement: Agreement): Figures {
  const rounding: Rounding = agreement.rounding ?? 'half-up';
  const figures = new Map<Measure, Fraction>();
  const put = (measure: TestedMeasure, value: Fraction): void => {
    const decimals = agreement.tests?.[measure]?.decimals;
    figures.set(measure, decimals === undefined ? value : rounded(value, Number(decimals), rounding));
  };
  const reported = parse(sample.dry_matter);
  put('dry-matter', reported);
  figures.set('moisture', subtract(hundred, figures.get('dry-matter') ?? reported));
  for (const measure of constituents) {
    const cell = sample[sampleColumns[measure]];
    if (cell === undefined || cell === '') continue;
    const value = parse(cell);
    put(measure, sample.basis === 'as-fed' ? divide(multiply(value, hundred), reported) : value);
  }
  for (const measure of otherMeasures) {
    const cell = sample[sampleColumns[measure]];
    if (cell !== undefined && cell !== '') put(measure, parse(cell));
  }
  return figures;
}

function testedPart(part: string): Measure[] {
  if (part === 'grain-equivalent') return ['starch'];
  return constituents.filter((constituent) => constituent === part);
}

function neededByTerm(term: Term): Measure[] {
  switch (term.term) {
    case 'constituent':
      return ['dry-matter', ...testedPart(term.of)];
    case 'remainder':
      return ['dry-matter', ...term.after.flatMap(testedPart)];
    case 'equivalent-bushels':
      return ['dry-matter'];
    case 'flat':
    case 'limit':
      return term.weight === 'dry-matter' ? ['dry-matter'] : [];
    case 'schedule':
      return term.unit === 'money' && term.weight === 'dry-matter' ? [term.on, 'dry-matter'] : [term.on];
  }
}

/** Every measure without which a load cannot be judged or priced. */
export function neededMeasures(agreement: Agreement): Measure[] {
  const accepted = (agreement.acceptance ?? []).map((range) => range.on);
  return [...new Set([...agreement.price.flatMap(neededByTerm), ...accepted])];
}
