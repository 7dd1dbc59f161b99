/**
 * Which lots to list, in which order and at what prices: one form that only asks, so the address holds all of it.
 */
import { FEED_KINDS, FEEDS } from '../../domain/agreement/measures.ts';
import type { FeedTexts } from '../../usecases/lots/feed-request.ts';
import type { AskedQuote } from '../../usecases/lots/lot-quotes.ts';
import type { Problem } from '../../usecases/refusal.ts';
import { AskedField, AskedList } from './asked-field.tsx';
import { BasisFields, DISTANCES } from './basis-fields.tsx';

export interface FeedFilterProps {
  readonly texts: FeedTexts;
  readonly problems: readonly Problem[];
  readonly quotes: readonly AskedQuote[];
  readonly hasPlace: boolean;
  readonly currency: string;
  readonly isMetric: boolean;
}

const SORT_WORDS = [
  { value: 'newest', label: 'newest first' },
  { value: 'price-dry', label: 'price of dry matter, lowest first' },
  { value: 'price-starch', label: 'price of starch, lowest first' },
  { value: 'distance', label: 'distance, nearest first' },
  { value: 'starch', label: 'starch, most first' },
  { value: 'dry-matter', label: 'dry matter, most first' },
  { value: 'ndf', label: 'NDF, least first' },
  { value: 'kind', label: 'kind of feed' },
];

export function FeedFilter({ texts, problems, quotes, hasPlace, currency, isMetric }: FeedFilterProps) {
  const at = (name: string) => ({
    name,
    value: texts.get(name) ?? '',
    fault: problems.find(({ column }) => column === name)?.message,
  });
  const distanceUnit = isMetric ? 'km' : 'mile';
  const isFiltered = ['feed', 'within', 'dryFrom', 'dryTo', 'starchFrom', 'ndfTo', 'show'].some((name) =>
    texts.has(name),
  );
  return (
    <form method="get" action="/lots" className="feed-filter">
      <BasisFields
        texts={texts}
        problems={problems}
        quotes={quotes}
        currency={currency}
        isMetric={isMetric}
      />
      <details className="more-fields" open={isFiltered}>
        <summary>Choose which lots</summary>
        <div className="asked">
          <AskedList
            {...at('feed')}
            label="Kind of feed"
            options={[
              { value: '', label: 'every kind' },
              ...FEED_KINDS.map((kind) => ({ value: kind, label: FEEDS[kind] })),
            ]}
            isWide
          />
          <AskedField
            {...at('within')}
            label="At most this far"
            hint={hasPlace ? undefined : 'say first where you are'}
          />
          <AskedList
            {...at('withinUnit')}
            value={texts.get('withinUnit') ?? distanceUnit}
            label="in"
            options={DISTANCES}
          />
          <AskedField {...at('dryFrom')} label="Dry matter from, %" />
          <AskedField {...at('dryTo')} label="to, %" />
          <AskedField {...at('starchFrom')} label="Starch from, %" hint="tested, of dry matter" />
          <AskedField {...at('ndfTo')} label="NDF at most, %" hint="tested, of dry matter" />
          <AskedList
            {...at('show')}
            label="Show"
            options={[
              { value: '', label: 'open for offers' },
              { value: 'all', label: 'all that you may see' },
            ]}
          />
        </div>
      </details>
      <div className="asked asked-end">
        <AskedList {...at('sort')} label="Order" options={SORT_WORDS} isWide />
        <button type="submit" className="quiet">
          Show these
        </button>
      </div>
    </form>
  );
}
