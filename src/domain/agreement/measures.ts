/**
 * What a laboratory measures: the six constituents of the dry matter, and the measures with a scale of their own.
 * `moisture` is not measured here but follows: 100 − dry matter.
 */

export const CONSTITUENTS = ['starch', 'ndf', 'adf', 'crude-protein', 'crude-fat', 'ash'] as const;
export type Constituent = (typeof CONSTITUENTS)[number];

/** Figures that a result can hold. */
export const TESTED = [
  'dry-matter',
  ...CONSTITUENTS,
  'ph',
  'ammonia-nitrogen',
  'particle-size',
  'aflatoxin',
  'vomitoxin',
] as const;
export type Tested = (typeof TESTED)[number];

/** Measures that a schedule or an acceptance range can be on. */
export const MEASURES = ['moisture', ...TESTED] as const;
export type Measure = (typeof MEASURES)[number];

/** Parts of the dry matter that a price term can pay for. */
export const PARTS = [...CONSTITUENTS, 'dry-matter', 'grain-equivalent'] as const;
export type Part = (typeof PARTS)[number];

export function isConstituent(measure: string): measure is Constituent {
  return (CONSTITUENTS as readonly string[]).includes(measure);
}

/** How a measure is called in a sentence. */
export const MEASURE_NAMES: Readonly<Record<Measure | Part, string>> = {
  moisture: 'moisture',
  'dry-matter': 'dry matter',
  starch: 'starch',
  ndf: 'NDF',
  adf: 'ADF',
  'crude-protein': 'crude protein',
  'crude-fat': 'crude fat',
  ash: 'ash',
  ph: 'pH',
  'ammonia-nitrogen': 'ammonia nitrogen',
  'particle-size': 'particle size',
  aflatoxin: 'aflatoxin',
  vomitoxin: 'vomitoxin',
  'grain-equivalent': 'grain-equivalent',
};

/** The unit that a measure's value is in, as it stands behind the figure. */
export const MEASURE_UNITS: Readonly<Record<Measure, string>> = {
  moisture: '% as-fed',
  'dry-matter': '% as-fed',
  starch: '% of dry matter',
  ndf: '% of dry matter',
  adf: '% of dry matter',
  'crude-protein': '% of dry matter',
  'crude-fat': '% of dry matter',
  ash: '% of dry matter',
  ph: '',
  'ammonia-nitrogen': '% of total nitrogen',
  'particle-size': 'µm',
  aflatoxin: 'µg/kg as-fed',
  vomitoxin: 'mg/kg as-fed',
};

/** The kinds of feed, each with the parts of the ear that it holds. */
export const FEEDS = {
  'whole-ear-corn': 'whole-ear corn (the ground ear: grain, cob and husk; also called snaplage)',
  'high-moisture-ear-corn': 'high-moisture ear corn (ground grain and cob, no husk)',
  'high-moisture-shelled-corn': 'high-moisture shelled corn (grain only)',
  'corn-silage': 'corn silage (the whole plant, chopped)',
  'dry-shelled-corn': 'dry shelled corn (grain only)',
} as const;
export type Feed = keyof typeof FEEDS;
export const FEED_KINDS = Object.keys(FEEDS) as [Feed, ...Feed[]];
