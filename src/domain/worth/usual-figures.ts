/**
 * What each kind of feed usually tests, for trying a formula on feed that nobody has tested yet.
 * Whole-ear corn: starch about 50 to 60 % and NDF about 25 % of dry matter, moisture 40 to 45 % (common practice, no
 * source). All other figures here are common practice too, without a source: they choose what is looked at, and price
 * nothing. In each kind, starch, NDF, protein, fat and ash stay below 100 % together, and ADF below NDF.
 */
import type { Feed, Tested } from '../agreement/measures.ts';
import { decimal, type Exact } from '../numbers/exact.ts';
import type { TrialFigures } from './try-out.ts';

/** Measures that differ most between loads of one feed. */
export type Leading = 'dry-matter' | 'starch' | 'ndf';

export interface UsualFeed {
  /** One figure for every measure that a result can hold. */
  readonly figures: TrialFigures;
  /** Between these lie nearly all loads of a season. */
  readonly range: Readonly<Record<Leading, { readonly low: Exact; readonly high: Exact }>>;
  /** How far an uncommon load of a season lies from its usual one, in points. */
  readonly step: { readonly dryMatter: Exact; readonly starch: Exact };
  /** What a load with less starch has more of. */
  readonly poor: string;
  /** What a load with more starch has more of. */
  readonly rich: string;
}

type Written = readonly [usual: string, low: string, high: string];

interface WrittenFeed {
  readonly leading: Readonly<Record<Leading, Written>>;
  readonly others: Readonly<Record<Exclude<Tested, Leading>, string>>;
  readonly step: { readonly dryMatter: string; readonly starch: string };
  readonly poor: string;
  readonly rich: string;
}

function others(
  [adf, protein, fat, ash]: readonly [string, string, string, string],
  size: string,
): WrittenFeed['others'] {
  return {
    adf,
    'crude-protein': protein,
    'crude-fat': fat,
    ash,
    ph: '4',
    'ammonia-nitrogen': '4',
    'particle-size': size,
    aflatoxin: '2',
    vomitoxin: '0.5',
  };
}

const WRITTEN: Readonly<Record<Feed, WrittenFeed>> = {
  'whole-ear-corn': {
    leading: { 'dry-matter': ['58', '52', '66'], starch: ['55', '48', '62'], ndf: ['25', '18', '33'] },
    others: others(['11', '8', '3.5', '1.7'], '1500'),
    step: { dryMatter: '5', starch: '5' },
    poor: 'more husk',
    rich: 'more grain',
  },
  'high-moisture-ear-corn': {
    leading: { 'dry-matter': ['65', '60', '72'], starch: ['60', '54', '65'], ndf: ['17', '12', '23'] },
    others: others(['7.5', '8.5', '3.7', '1.6'], '1400'),
    step: { dryMatter: '4', starch: '4' },
    poor: 'more cob',
    rich: 'more grain',
  },
  'high-moisture-shelled-corn': {
    leading: { 'dry-matter': ['72', '66', '78'], starch: ['70', '66', '73'], ndf: ['10', '8', '13'] },
    others: others(['3.5', '9', '4', '1.5'], '1300'),
    step: { dryMatter: '4', starch: '2' },
    poor: 'less starch',
    rich: 'more starch',
  },
  'corn-silage': {
    leading: { 'dry-matter': ['35', '28', '42'], starch: ['32', '22', '40'], ndf: ['41', '34', '50'] },
    others: others(['25', '7.8', '3', '4'], '9000'),
    step: { dryMatter: '4', starch: '6' },
    poor: 'more stalk and leaf',
    rich: 'more grain',
  },
  'dry-shelled-corn': {
    leading: { 'dry-matter': ['85', '80', '90'], starch: ['71', '68', '74'], ndf: ['10', '8', '13'] },
    // Dry grain is not fermented.
    others: { ...others(['3.3', '8.8', '4', '1.4'], '4000'), ph: '6', 'ammonia-nitrogen': '1' },
    step: { dryMatter: '2', starch: '2' },
    poor: 'less starch',
    rich: 'more starch',
  },
};

const USUAL = new Map(Object.entries(WRITTEN).map(([feed, written]) => [feed, read(written)]));

/** The usual figures of a feed, each measure with one. */
export function usualFeed(feed: Feed): UsualFeed {
  const usual = USUAL.get(feed);
  if (!usual) throw new RangeError(`No usual figures for ${feed}`);
  return usual;
}

function read({ leading, others: rest, step, poor, rich }: WrittenFeed): UsualFeed {
  const rangeOf = ([, low, high]: Written) => ({ low: decimal(low), high: decimal(high) });
  const usual = Object.entries({
    ...Object.fromEntries(Object.entries(leading).map(([measure, [figure]]) => [measure, figure])),
    ...rest,
  });
  return {
    figures: new Map(usual.map(([measure, figure]) => [measure as Tested, decimal(figure)])),
    range: {
      'dry-matter': rangeOf(leading['dry-matter']),
      starch: rangeOf(leading.starch),
      ndf: rangeOf(leading.ndf),
    },
    step: { dryMatter: decimal(step.dryMatter), starch: decimal(step.starch) },
    poor,
    rich,
  };
}
