/**
 * What each kind of feed can test, for asking about figures that are hardly right. They are wide: nearly every sample
 * of a season lies well inside, and whoever has one that does not says so. Nothing here prices anything.
 * Every range is common practice, no source, but for what is read and lies inside: moisture of whole-ear corn 32 to
 * 45 % (Univ. of Wisconsin Team Forage, read), so dry matter 55 to 68 %.
 */
import { FEEDS, type Feed, type Tested } from '../agreement/measures.ts';
import { decimal, type Exact } from '../numbers/exact.ts';

/** From and to, both ends inside; percent of dry matter for constituents, each other measure in its own unit. */
export interface PlausibleRange {
  readonly low: Exact;
  readonly high: Exact;
}

type Written = readonly [low: string, high: string];

/** Measures whose range depends on the feed, in this order. */
const BY_FEED = ['dry-matter', 'starch', 'ndf', 'adf', 'crude-protein', 'crude-fat', 'ash', 'ph'] as const;

const WRITTEN: Readonly<Record<Feed, string>> = {
  'whole-ear-corn': '35-80 40-72 10-45 4-25 5-12 1.5-6 0.8-6 3.3-7.5',
  'high-moisture-ear-corn': '45-85 45-75 7-32 2.5-16 6-12 2-6 0.8-5 3.3-7.5',
  'high-moisture-shelled-corn': '55-88 58-80 5-20 1.5-8 6-13 2-7 0.8-4 3.3-7.5',
  'corn-silage': '18-55 5-52 25-70 13-45 4-13 1-6 2-12 3.2-7.5',
  'dry-shelled-corn': '76-95 58-80 5-20 1.5-8 6-13 2-7 0.8-4 4.5-7.5',
};

/** Measures whose range is one for all feeds. */
const FOR_ALL: Readonly<Partial<Record<Tested, Written>>> = {
  'ammonia-nitrogen': ['0', '30'],
  'particle-size': ['150', '25000'],
};

/** The range of a measure in a feed; undefined where any figure can be. */
export function plausibleRange(feed: Feed, measure: Tested): PlausibleRange | undefined {
  return RANGES.get(feed)?.get(measure);
}

function written(text: string): Written[] {
  return text.split(' ').map((part) => {
    const [low = '', high = ''] = part.split('-');
    return [low, high];
  });
}

const RANGES: ReadonlyMap<Feed, ReadonlyMap<Tested, PlausibleRange>> = new Map(
  (Object.keys(FEEDS) as Feed[]).map((feed) => {
    const own = BY_FEED.map((measure, index) => [measure, written(WRITTEN[feed])[index]] as const);
    const all = [...own, ...(Object.entries(FOR_ALL) as [Tested, Written][])];
    return [
      feed,
      new Map(
        all.flatMap(([measure, ends]) =>
          ends ? [[measure, { low: decimal(ends[0]), high: decimal(ends[1]) }] as const] : [],
        ),
      ),
    ];
  }),
);
