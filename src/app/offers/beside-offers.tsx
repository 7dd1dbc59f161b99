/**
 * Several buyers' offers on one lot in one table, for its seller: whose move, until when, and what each pays for the
 * same loads at the same quotes.
 */

import { type FeedTexts, QUOTE_TEXT } from '../../usecases/lots/feed-request.ts';
import type { ComparedOffers, ComparedPrice, ComparedQuote } from '../../usecases/offers/compare-offers.ts';
import type { OfferLine } from '../../usecases/offers/read-offer-list.ts';
import type { Problem } from '../../usecases/refusal.ts';
import { AskedField } from '../lots/asked-field.tsx';

export interface BesideOffersProps {
  readonly beside: ComparedOffers;
  readonly offers: readonly OfferLine[];
  readonly texts: FeedTexts;
  readonly problems: readonly Problem[];
}

export function BesideOffers({ beside, offers, texts, problems }: BesideOffersProps) {
  const { quotes, loads, ton, prices } = beside;
  return (
    <>
      {quotes.length === 0 ? null : (
        <form method="get" action="/offers" className="feed-filter">
          <div className="asked">
            {quotes.map((quote) => (
              <AskedField
                key={quote.key}
                name={QUOTE_TEXT + quote.key}
                label={`If ${quote.key} is at`}
                value={texts.get(QUOTE_TEXT + quote.key) ?? ''}
                placeholder={quote.quote}
                hint={quoteWords(quote)}
                fault={problems.find(({ column }) => column === QUOTE_TEXT + quote.key)?.message}
                isWide
              />
            ))}
          </div>
          <p>
            <button type="submit" className="quiet">
              Look at them so
            </button>
          </p>
        </form>
      )}
      <p className="hint">
        Every offer is looked at on the same loads
        {quotes.map((quote) => `, at ${quote.key}: ${quoteWords(quote)}`).join('')}. Beneath each amount, what
        it is per {ton} of dry matter.
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls by the keyboard, too */}
      <div className="wide-table" tabIndex={0}>
        <table className="grid beside-offers">
          <caption>Open offers beside one another</caption>
          <thead>
            <tr>
              <th scope="col">Offer of</th>
              {offers.map(({ id, buyer }) => (
                <th scope="col" key={id}>
                  <a href={`/offers/${id}`}>{buyer}</a>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">Version</th>
              {offers.map(({ id, version, by, seller, buyer }) => (
                <td key={id}>
                  {version}, sent by {by === 'seller' ? seller : buyer}
                </td>
              ))}
            </tr>
            <tr>
              <th scope="row">Signed by</th>
              {offers.map(({ id, signedBy, seller, buyer }) => (
                <td key={id}>
                  {signedBy.length === 0
                    ? 'nobody yet'
                    : signedBy.map((side) => (side === 'seller' ? seller : buyer)).join(' and ')}
                </td>
              ))}
            </tr>
            <tr>
              <th scope="row">Whose move</th>
              {offers.map(({ id, turn, buyer }) => (
                <td key={id}>{turn === 'yours' ? 'yours' : buyer}</td>
              ))}
            </tr>
            <tr>
              <th scope="row">Stands until</th>
              {offers.map(({ id, until }) => (
                <td key={id}>{until}</td>
              ))}
            </tr>
            {loads.map(({ label, weight }, index) => (
              <tr key={label}>
                <th scope="row">
                  {label}, {weight}
                </th>
                {offers.map(({ id }) => (
                  <td key={id} className="figure">
                    <Paid price={prices.get(id)?.[index]} />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function Paid({ price }: { readonly price: ComparedPrice | undefined }) {
  if (!price) return null;
  if (price.impossible !== undefined) return <span>no price: {price.impossible}</span>;
  return (
    <>
      <strong>{price.total}</strong>
      <br />
      {price.perTonDry} a dry ton
    </>
  );
}

function quoteWords({ quote, from, on }: ComparedQuote): string {
  switch (from) {
    case 'typed':
      return `${quote}, as you typed`;
    case 'recorded':
      return `${quote} recorded for ${on}`;
    case 'assumed':
      return `${quote} assumed: nobody has recorded one`;
  }
}
