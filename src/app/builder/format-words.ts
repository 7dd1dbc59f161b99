/**
 * The agreement file's own words, as a person says them: units, weights, ways to count, kinds of price line.
 */
import type { Per, PriceTerm, ReferenceRule, WeightBasis } from '../../domain/agreement/document.ts';
import { FEEDS, MEASURE_NAMES, MEASURE_UNITS, MEASURES, PARTS } from '../../domain/agreement/measures.ts';
import { DISTANCE_UNITS, WEIGHT_UNITS } from '../../domain/quantities/units.ts';
import { opening } from '../place/sentence.ts';
import { optionsOf } from './setting.ts';

export const PER_WORDS: Readonly<Record<Per, string>> = {
  'short-ton': 'short ton (2,000 lb)',
  tonne: 'tonne (1,000 kg)',
  cwt: 'hundredweight (100 lb)',
  lb: 'pound',
  kg: 'kilogram',
  load: 'load',
  mile: 'mile hauled',
  km: 'kilometre hauled',
};

/** "short ton", as it stands in a sentence. */
export function perWord(per: unknown): string {
  const words = PER_WORDS[per as Per] as string | undefined;
  return words?.replace(/ [(h].*$/, '') ?? '…';
}

export const WEIGHT_WORDS: Readonly<Record<WeightBasis, string>> = {
  'as-fed': 'of weight as delivered, wet',
  'dry-matter': 'of dry matter',
};

export const TERM_WORDS: Readonly<Record<PriceTerm['term'], string>> = {
  constituent: 'Pay for a part of the dry matter',
  remainder: 'Pay for what is left of the dry matter',
  'equivalent-bushels': 'Pay for dry-equivalent bushels',
  flat: 'Add or take off a flat rate',
  schedule: 'Add or take off by a test',
  limit: 'Hold the sum within limits',
};

export const TERM_HINTS: Readonly<Record<PriceTerm['term'], string>> = {
  constituent: 'Pounds of starch, fibre or another tested part, at a share of a grain price.',
  remainder: 'Pounds that are left once the parts you name are taken off, at a share of a grain price.',
  'equivalent-bushels': 'The wet weight as bushels of dry corn, by dry matter, shrink or a table.',
  flat: 'Money per ton, load or mile: a price, hauling, a handling charge.',
  schedule: 'Nothing within a range of the test; money or percent for each point outside it.',
  limit: 'Makes up the difference to the least or the most that a load is to come to.',
};

export const RULE_WORDS: Readonly<Record<ReferenceRule['kind'], string>> = {
  fixed: 'One fixed price',
  'delivery-day': 'The quote of the day of delivery',
  average: 'The mean of the last quotes',
  'month-average': 'The mean of the month of delivery',
  'seller-elects': 'The seller names a pricing date',
};

export const COUNT_WORDS = {
  exact: 'with their fractions',
  completed: 'completed points only',
  started: 'each started point as a whole one',
} as const;

export const PLAN_WORDS = {
  'per-load': 'each load has a sample of its own',
  composite: 'one sample may stand for several loads',
  'per-day': 'one sample a day, unless a load has its own',
} as const;

export const FEED_OPTIONS = optionsOf(
  Object.fromEntries(Object.entries(FEEDS).map(([feed, words]) => [feed, opening(words)])),
);

/** "NDF, % of dry matter" */
export function measureLabel(measure: (typeof MEASURES)[number]): string {
  const unit = MEASURE_UNITS[measure];
  return unit === '' ? MEASURE_NAMES[measure] : `${MEASURE_NAMES[measure]}, ${unit}`;
}

export const MEASURE_OPTIONS = MEASURES.map((measure) => ({ value: measure, label: measureLabel(measure) }));

export const PART_OPTIONS = PARTS.map((part) => ({
  value: part,
  label: part === 'grain-equivalent' ? 'grain, by its starch (grain-equivalent)' : MEASURE_NAMES[part],
}));

export const PER_OPTIONS = optionsOf(PER_WORDS);
export const WEIGHT_OPTIONS = optionsOf(WEIGHT_WORDS);

/** Whether money per `per` needs to know which weight is meant. */
export function isWeighed(per: unknown): boolean {
  return (WEIGHT_UNITS as readonly unknown[]).includes(per);
}

export function isHauled(per: unknown): boolean {
  return (DISTANCE_UNITS as readonly unknown[]).includes(per);
}
