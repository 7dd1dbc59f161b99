/**
 * What anybody may see of a lot, part by part. It is given an extract that holds the marked parts alone.
 */
import { figuresFor } from '../../documents/figures.ts';
import { MEASURE_NAMES, MEASURE_UNITS, TESTED } from '../../domain/agreement/measures.ts';
import { STORAGE_NAMES } from '../../domain/lots/lot-document.ts';
import type { PublicExtract } from '../../domain/lots/public-extract.ts';
import { opening } from '../place/sentence.ts';

export interface ListingFactsProps {
  readonly extract: PublicExtract;
  readonly locale: string;
}

export function ListingFacts({ extract, locale }: ListingFactsProps) {
  const { seller, amount, storage, harvest, tests, moisture, region, delivery, price, notes } = extract;
  const { show } = figuresFor(locale);
  const tons = amount?.ton === 'tonne' ? 'tonnes' : 'short tons';
  return (
    <>
      <p>
        {opening(extract.feedWords)}. Offered until the end of {extract.until}.
      </p>
      {seller === undefined ? null : <p className="public-part part-seller">Sold by {seller}.</p>}
      {amount === undefined ? null : (
        <p className="public-part part-amount">
          {show(amount.wetTons)} {tons} wet
          {amount.dryTons === undefined ? '' : `, ${show(amount.dryTons)} dry`}.
        </p>
      )}
      {storage === undefined || harvest === undefined ? null : (
        <p className="public-part part-storage">
          {opening(STORAGE_NAMES[storage])}; harvest {harvest.from} to {harvest.to}.
        </p>
      )}
      {tests === undefined || moisture === undefined ? null : (
        <div className="public-part part-tests">
          <p>
            Expected moisture {show(moisture.from)} to {show(moisture.to)} %.
            {tests.length === 0 ? ' No test yet.' : null}
          </p>
          {tests.map((test) => (
            <p key={JSON.stringify(test)}>
              Tested on {test.on} by {test.laboratory}
              {test.method === undefined ? '' : ` (${test.method})`}:{' '}
              {TESTED.flatMap((measure) => {
                const figure = test[measure];
                return figure === undefined
                  ? []
                  : [`${MEASURE_NAMES[measure]} ${show(figure)} ${MEASURE_UNITS[measure]}`.trim()];
              }).join(', ')}
              .
            </p>
          ))}
        </div>
      )}
      {region === undefined ? null : <p className="public-part part-region">{region}.</p>}
      {delivery === undefined ? null : (
        <p className="public-part part-delivery">
          Hauled by the {delivery.hauledBy}; weighed by {delivery.weighedBy}.
        </p>
      )}
      {price === undefined ? null : (
        <div className="public-part part-price">
          <p>What the seller asks:</p>
          {price.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </div>
      )}
      {notes === undefined ? null : <p className="public-part part-notes">{notes}</p>}
    </>
  );
}
