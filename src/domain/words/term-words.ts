/**
 * A price term in words that say exactly what its evaluation does, with every parameter as it stands in the file.
 */
import type { BushelMethod, PriceTerm, Step, TermOf } from '../agreement/document.ts';
import { MEASURE_NAMES, MEASURE_UNITS, type Part } from '../agreement/measures.ts';
import { namePer } from '../settlement/per-quantity.ts';
import { addedOrTaken, isBelowZero, listed, onScale, unsigned } from './figures-in-words.ts';

/** The sentences of one term, without its label. */
export function termInWords(term: PriceTerm, currency: string): string[] {
  switch (term.term) {
    case 'constituent':
      return [
        `The buyer pays for the pounds of ${partInWords(term.of, term.at.reference)}, at ${shareOfPrice(term)}.`,
        ...meaningOf([term.of], term.at.reference),
      ];
    case 'remainder':
      return [
        term.after.length === 0
          ? `The buyer pays for all pounds of dry matter, at ${shareOfPrice(term)}.`
          : `The buyer pays for the pounds of dry matter that are left after ${listed(term.after.map((part) => partInWords(part, term.at.reference)))}, at ${shareOfPrice(term)}.`,
        ...meaningOf(term.after, term.at.reference),
      ];
    case 'equivalent-bushels':
      return [
        ...methodInWords(term.method, term.at.reference),
        ...(term.bushelDecimals === undefined
          ? []
          : [`The bushels are rounded to ${term.bushelDecimals} decimals, by the rounding rule above.`]),
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

function meaningOf(parts: readonly Part[], reference: string): string[] {
  if (!parts.includes('grain-equivalent')) return [];
  return [
    `The grain-equivalent is the starch in the dry matter divided by the starch in the dry matter of the ${reference} grain, and never more than the whole dry matter.`,
  ];
}

function shareOfPrice({ at, sharePercent }: TermOf<'constituent'> | TermOf<'remainder'>): string {
  const per = at.per === 'dry-matter' ? 'dry matter' : 'starch';
  return `${sharePercent ?? '100'} % of what the ${at.reference} price comes to per pound of ${per}`;
}

function methodInWords(method: BushelMethod, reference: string): string[] {
  switch (method.kind) {
    case 'dry-matter':
      return [
        `The wet weight is turned into dry bushels by its dry matter: pounds of dry matter divided by the pounds of dry matter in one unit of ${reference}.`,
      ];
    case 'shrink':
      return [
        `The wet weight is turned into dry bushels by shrink: ${method.percentPerPoint} % of the weight is taken off for each point of moisture above that of ${reference} (fractions count; never more than the whole weight), and the rest is divided by the pounds in one unit of ${reference}.`,
      ];
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
  const each = term.unit === 'percent' ? '%' : currency;
  const what =
    term.unit === 'percent'
      ? 'of the sum of the lines before this one, whatever its sign'
      : `for each ${term.per === undefined ? '' : namePer({ per: term.per, weight: term.weight })}`;
  return [
    `For ${name} from ${onScale(from)} to ${onScale(to)}, both included, nothing is added or taken off.`,
    `Above ${onScale(to)}: ${stepsInWords(term.above, { each, what })}`,
    `Below ${onScale(from)}: ${stepsInWords(term.below, { each, what })}`,
    ...(term.unit === 'percent' ? ['The lines before it are taken as rounded.'] : []),
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
  { each, what }: { readonly each: string; readonly what: string },
): string {
  if (!steps) return 'nothing either.';
  const told = steps.map(({ points, perPoint }, index) => {
    const which =
      points === undefined
        ? index === 0
          ? 'each point'
          : 'each further point'
        : `${index === 0 ? 'the first' : 'the next'} ${points} points, each`;
    return `${which} ${isBelowZero(perPoint) ? 'takes off' : 'adds'} ${unsigned(perPoint)} ${each}`;
  });
  const capped = steps.at(-1)?.points === undefined ? '' : '; points beyond that change nothing more';
  return `${told.join('; ')}, ${what}${capped}.`;
}

function limitInWords(term: TermOf<'limit'>, currency: string): string[] {
  const per = namePer(term);
  return [
    ...(term.floor === undefined
      ? []
      : [
          `If the lines before this one come to less than ${onScale(term.floor)} ${currency} for each ${per}, this line makes up the difference.`,
        ]),
    ...(term.ceiling === undefined
      ? []
      : [
          `If the lines before this one come to more than ${onScale(term.ceiling)} ${currency} for each ${per}, this line takes off the difference.`,
        ]),
    'Lines that come after it are not held by it.',
  ];
}
