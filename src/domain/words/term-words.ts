/**
 * A price term in words that say exactly what its evaluation does, with every parameter as it stands in the file.
 */
import type { Agreement, PriceTerm, Reference, Step, TermOf } from '../agreement/document.ts';
import { MEASURE_NAMES, MEASURE_UNITS, type Part } from '../agreement/measures.ts';
import { decimal, HUNDRED, subtract } from '../numbers/exact.ts';
import { printDecimal, withMinus } from '../numbers/printing.ts';
import { needed } from '../settlement/measured-load.ts';
import { namePer } from '../settlement/per-quantity.ts';
import { addedOrTaken, countOfDecimals, listed, unsigned } from './figures-in-words.ts';

/** Decimals that a base moisture is said with; a percentage in a file has no more that matter. */
const MOST_PLACES = 60;

export interface WordsSetting {
  readonly currency: string;
  readonly references: Agreement['references'];
}

/** The sentences of one term, without its label. */
export function termInWords(term: PriceTerm, { currency, references }: WordsSetting): string[] {
  switch (term.term) {
    case 'constituent':
      return [
        `The buyer pays for the pounds of ${partInWords(term.of, term.at.reference)}, at ${shareOfPrice(term)}.`,
      ];
    case 'remainder':
      return [
        term.after.length === 0
          ? `The buyer pays for all pounds of dry matter, at ${shareOfPrice(term)}.`
          : `The buyer pays for the pounds of dry matter that are left after ${listed(term.after.map((part) => partInWords(part, term.at.reference)))}, at ${shareOfPrice(term)}.`,
      ];
    case 'equivalent-bushels':
      return [
        ...methodInWords(term, needed(references[term.at.reference], `reference ${term.at.reference}`)),
        ...(term.bushelDecimals === undefined
          ? []
          : [
              `The bushels are rounded to ${countOfDecimals(term.bushelDecimals)}, by the rounding rule above.`,
            ]),
        `Each bushel is paid at ${term.sharePercent ?? '100'} % of the ${term.at.reference} price.`,
      ];
    case 'flat':
      return [`${unsigned(term.rate)} ${currency} ${addedOrTaken(term.rate)} for each ${namePer(term)}.`];
    case 'schedule':
      return scheduleInWords(term, currency);
    case 'limit':
      return limitInWords(term, currency);
  }
}

function partInWords(part: Part, reference: string): string {
  return part === 'grain-equivalent'
    ? `${reference} grain by its starch (the grain-equivalent)`
    : MEASURE_NAMES[part];
}

/** What the grain-equivalent is, for each reference that a term counts grain by. */
export function grainEquivalentInWords({
  price,
  references,
}: Pick<Agreement, 'price' | 'references'>): string[] {
  const counted = price.flatMap((term) => {
    if (term.term === 'constituent' && term.of === 'grain-equivalent') return [term.at.reference];
    if (term.term === 'remainder' && term.after.includes('grain-equivalent')) return [term.at.reference];
    return [];
  });
  return [...new Set(counted)].map((name) => {
    const starch = references[name]?.starchPercentOfDryMatter ?? '';
    return `The grain-equivalent counts the load’s starch as ${name} grain: percent of starch in the dry matter, divided by the ${starch} % of starch in the dry matter of ${name} grain, and never more than the whole dry matter.`;
  });
}

function shareOfPrice({ at, sharePercent }: TermOf<'constituent'> | TermOf<'remainder'>): string {
  const per = at.per === 'dry-matter' ? 'dry matter' : 'starch';
  return `${sharePercent ?? '100'} % of what the ${at.reference} price comes to per pound of ${per}`;
}

function methodInWords({ method, at }: TermOf<'equivalent-bushels'>, reference: Reference): string[] {
  const unit = `one ${reference.unit} of ${at.reference}`;
  const pounds = reference.poundsPerUnit;
  switch (method.kind) {
    case 'dry-matter':
      return [
        `The wet weight is turned into dry bushels by its dry matter: pounds of dry matter, divided by the pounds of dry matter in ${unit} (${pounds} lb at ${reference.dryMatterPercent} %).`,
      ];
    case 'shrink': {
      const base = printDecimal(subtract(HUNDRED, decimal(reference.dryMatterPercent)), MOST_PLACES);
      return [
        `The wet weight is turned into dry bushels by shrink: ${method.percentPerPoint} % of the weight is taken off for each point of moisture above ${base} % (fractions count; never more than the whole weight), and the rest is divided by the ${pounds} lb of ${unit}.`,
      ];
    }
    case 'table': {
      const rows = method.rows.map(({ moisture, poundsPerBushel }) => `${moisture} %: ${poundsPerBushel} lb`);
      return [
        `The wet weight is turned into dry bushels by a table of the pounds that make one bushel at a moisture: ${rows.join('; ')}.`,
        method.between === 'linear'
          ? 'Between two rows the pounds are in proportion (linear).'
          : 'Between two rows the wetter row counts (next-wetter).',
        method.drier === 'first-row'
          ? 'A load drier than the table takes its first row; one wetter than the table waits until both sides agree on it.'
          : 'A load drier or wetter than the table waits until both sides agree on it.',
      ];
    }
  }
}

function scheduleInWords(term: TermOf<'schedule'>, currency: string): string[] {
  const unit = MEASURE_UNITS[term.on];
  const name = `${MEASURE_NAMES[term.on]}${unit === '' ? '' : ` (${unit})`}`;
  const { from, to } = term.neutral;
  const money = term.unit === 'percent' ? '% of the sum so far' : currency;
  const what =
    term.unit === 'percent'
      ? 'that sum being of the lines before this one, as rounded and whatever its sign'
      : `per ${term.per === undefined ? '' : namePer({ per: term.per, weight: term.weight })}`;
  return [
    `For ${name} from ${withMinus(from)} to ${withMinus(to)}, both included, nothing is added or taken off.`,
    `Above ${withMinus(to)}: ${stepsInWords(term.above, { money, what })}`,
    `Below ${withMinus(from)}: ${stepsInWords(term.below, { money, what })}`,
    COUNTS[term.count],
  ];
}

const COUNTS: Record<TermOf<'schedule'>['count'], string> = {
  exact: 'Points are counted exactly, with their fractions.',
  completed: 'Only completed points count: the points outside are rounded down to whole ones.',
  started: 'A started point counts as a whole one: the points outside are rounded up.',
};

function stepsInWords(
  steps: readonly Step[] | undefined,
  { money, what }: { readonly money: string; readonly what: string },
): string {
  if (!steps) return 'nothing either.';
  const told = steps.map(({ points, perPoint }, index) => {
    const which = index === 0 ? 'the first' : 'the next';
    const open = index === 0 ? 'for each point' : 'for each further point';
    const each = points === undefined ? open : `for each of ${which} ${points} points`;
    return `${each} ${unsigned(perPoint)} ${money} ${addedOrTaken(perPoint)}`;
  });
  const capped = steps.at(-1)?.points === undefined ? '' : '; points beyond that change nothing more';
  return `${listed(told)}, ${what}${capped}.`;
}

function limitInWords(term: TermOf<'limit'>, currency: string): string[] {
  const per = namePer(term);
  return [
    ...(term.floor === undefined
      ? []
      : [
          `If the lines before this one come to less than ${withMinus(term.floor)} ${currency} for each ${per}, this line makes up the difference.`,
        ]),
    ...(term.ceiling === undefined
      ? []
      : [
          `If the lines before this one come to more than ${withMinus(term.ceiling)} ${currency} for each ${per}, this line takes off the difference.`,
        ]),
    'Lines that come after it are not held by it.',
  ];
}
