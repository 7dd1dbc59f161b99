/**
 * What a lot costs the reader: the price with its basis beside it, or why there is none yet.
 */
import type { LotSummary } from '../../usecases/lots/lot-summary.ts';
import { haulWords, unpricedWords, untestedWords } from './lot-words.ts';

export function PriceView({ lot }: { readonly lot: LotSummary }) {
  const { worth, ton } = lot;
  if (worth.status !== 'priced') return <p className="lot-price open">{unpricedWords(worth)}</p>;
  const untested = untestedWords(lot);
  return (
    <div className="lot-price">
      <p>
        <strong className="amount">
          {worth.dry} {worth.currency}
        </strong>{' '}
        a {ton} of dry matter
        {worth.starch === undefined ? null : (
          <>
            {' · '}
            <span className="amount">{worth.starch}</span> a {ton} of starch
          </>
        )}
        {' · '}
        <span className="amount">{worth.asFed}</span> as fed
        {worth.haulLacks.length === 0 ? null : (
          <>
            {' · '}
            <strong>plus your haulage</strong>
          </>
        )}
      </p>
      <p className="hint">
        {[...worth.at.map((quote) => `at ${quote}`), haulWords(lot)].join('; ')}
        {untested === undefined ? '' : `. ${untested}`}
      </p>
    </div>
  );
}
