/**
 * Feed for sale for anybody, without signing in: what sellers marked public, and nothing else.
 */
import type { Metadata } from 'next';
import { readPublicListings } from '../../usecases/lots/public-listings.ts';
import { opening } from '../place/sentence.ts';
import { readerLocale } from '../server/current-caller.ts';
import { openedRecord } from '../server/record.ts';
import { ListingFacts } from './listing-facts.tsx';

export const metadata: Metadata = {
  title: 'Feed for sale',
  description: 'Wet corn feed that growers offer, with its tests and asking prices.',
  robots: { index: true, follow: true },
};

export default async function FeedPage() {
  const [listings, locale] = [await readPublicListings(await openedRecord()), await readerLocale()];
  return (
    <>
      <h1>Feed for sale</h1>
      {listings.length === 0 ? (
        <p>Nothing is shown to everyone at the moment. Who is signed in may see more.</p>
      ) : (
        <ul className="lots listed">
          {listings.map((listing) => (
            <li key={listing.lotId} className="lot">
              <h2>
                <a href={`/feed/${listing.lotId}`}>{opening(listing.feedWords.replace(/ \(.*$/, ''))}</a>
              </h2>
              <ListingFacts extract={listing} locale={locale} />
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
