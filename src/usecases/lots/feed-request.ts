/**
 * What a reader asks of the lots for sale: which, in which order, and on what footing they are priced. It comes as texts,
 * from an address; what cannot be read is named and left out, so that the list shows all the same.
 */
import { FEED_KINDS, type Feed } from '../../domain/agreement/measures.ts';
import { compare, decimal, type Exact, HUNDRED, parseDecimal, ZERO } from '../../domain/numbers/exact.ts';
import {
  DISTANCE_UNITS,
  type DistanceUnit,
  SCALE_UNITS,
  type ScaleUnit,
} from '../../domain/quantities/units.ts';
import type { Haul } from '../../domain/worth/trial-haul.ts';
import type { Problem } from '../refusal.ts';

export const SORTS = [
  'newest',
  'kind',
  'distance',
  'dry-matter',
  'starch',
  'ndf',
  'price-dry',
  'price-starch',
] as const;
export type Sort = (typeof SORTS)[number];

/** On what footing the reader looks at prices. */
export interface ReadersBasis {
  /** Typed quotes by `QuoteWanted.key`. */
  readonly quotes: ReadonlyMap<string, string>;
  readonly haul: { readonly rate: Exact; readonly per: DistanceUnit; readonly currency: string } | undefined;
  /** Undefined for an ordinary load in the lot's own unit. */
  readonly load: { readonly net: Exact; readonly unit: ScaleUnit } | undefined;
}

export interface FeedRequest extends ReadersBasis {
  readonly feed: Feed | undefined;
  readonly within: Haul | undefined;
  readonly dryMatterFrom: Exact | undefined;
  readonly dryMatterTo: Exact | undefined;
  readonly starchFrom: Exact | undefined;
  readonly ndfTo: Exact | undefined;
  /** Lots on which offers may be made; else all that the reader may see. */
  readonly onlyOpen: boolean;
  readonly sort: Sort;
}

/** Nothing asked for in particular. */
export const ANY_FEED: FeedRequest = {
  quotes: new Map(),
  haul: undefined,
  load: undefined,
  feed: undefined,
  within: undefined,
  dryMatterFrom: undefined,
  dryMatterTo: undefined,
  starchFrom: undefined,
  ndfTo: undefined,
  onlyOpen: true,
  sort: 'newest',
};

/** Names of the texts; a quote is named by `QUOTE_TEXT` and its key. */
export const BASIS_TEXTS = ['rate', 'per', 'currency', 'load', 'loadUnit'] as const;
export const FILTER_TEXTS = [
  'feed',
  'within',
  'withinUnit',
  'dryFrom',
  'dryTo',
  'starchFrom',
  'ndfTo',
  'show',
  'sort',
] as const;
export const QUOTE_TEXT = 'at ';

/** Texts by name, those that hold nothing left out. */
export type FeedTexts = ReadonlyMap<string, string>;

export interface ReadFeedRequest {
  readonly request: FeedRequest;
  readonly problems: readonly Problem[];
}

/** Reads what is asked for; the faults name their text. */
export function readFeedRequest(texts: FeedTexts): ReadFeedRequest {
  const problems: Problem[] = [];
  const figure = (name: string, most: Exact, hint: string): Exact | undefined => {
    const text = texts.get(name);
    if (text === undefined) return undefined;
    const found = parseDecimal(text);
    if (found && compare(found, ZERO) >= 0 && compare(found, most) <= 0) return found;
    problems.push({ column: name, message: `must be ${hint}; found “${text.slice(0, 40)}”` });
    return undefined;
  };
  const one = <Word extends string>(name: string, words: readonly Word[]): Word | undefined => {
    const text = texts.get(name);
    const found = words.find((word) => word === text);
    if (text !== undefined && found === undefined) {
      problems.push({ column: name, message: `must be one of ${words.join(', ')}` });
    }
    return found;
  };
  const share = (name: string) => figure(name, HUNDRED, 'a percentage from 0 to 100, like 55.5');
  const length = figure('within', MOST, 'a distance, like 60');
  const rate = figure('rate', MOST, 'an amount of money, like 4.25');
  const net = figure('load', MOST, 'a weight, like 48000');
  if (net && compare(net, ZERO) <= 0) problems.push({ column: 'load', message: 'must be above 0' });
  const request: FeedRequest = {
    quotes: new Map(
      [...texts.keys()].flatMap((name): [string, string][] => {
        if (!name.startsWith(QUOTE_TEXT)) return [];
        const quote = figure(name, MOST, 'a price, like 4.25');
        return quote ? [[name.slice(QUOTE_TEXT.length), texts.get(name) ?? '']] : [];
      }),
    ),
    haul: rate && {
      rate,
      per: one('per', DISTANCE_UNITS) ?? 'mile',
      currency: texts.get('currency') ?? 'USD',
    },
    load: net && compare(net, ZERO) > 0 ? { net, unit: one('loadUnit', SCALE_UNITS) ?? 'lb' } : undefined,
    feed: one('feed', FEED_KINDS),
    within: length && { length, unit: one('withinUnit', DISTANCE_UNITS) ?? 'mile' },
    dryMatterFrom: share('dryFrom'),
    dryMatterTo: share('dryTo'),
    starchFrom: share('starchFrom'),
    ndfTo: share('ndfTo'),
    onlyOpen: one('show', ['open', 'all']) !== 'all',
    sort: one('sort', SORTS) ?? 'newest',
  };
  return { request, problems };
}

/** Above any distance, weight, rate or quote. */
const MOST = decimal('1000000000');
