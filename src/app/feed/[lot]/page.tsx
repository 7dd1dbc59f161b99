/**
 * One lot as anybody may see it, and the way in for who wants to make an offer.
 */
import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { readPublicListing } from '../../../usecases/lots/public-listings.ts';
import { opening } from '../../place/sentence.ts';
import { readerLocale } from '../../server/current-caller.ts';
import { openedRecord } from '../../server/record.ts';
import { refusalOf } from '../../server/refused.ts';
import { ListingFacts } from '../listing-facts.tsx';

export const metadata: Metadata = { title: 'Feed for sale', robots: { index: true, follow: true } };

export default async function ListingPage({
  params,
}: {
  readonly params: Promise<{ readonly lot: string }>;
}) {
  const [{ lot }, locale] = [await params, await readerLocale()];
  const listing = await found(lot);
  return (
    <article className="listed">
      <p className="hint">
        <a href="/feed">Feed for sale</a>
      </p>
      <h1>{opening(listing.feedWords.replace(/ \(.*$/, ''))}</h1>
      <ListingFacts extract={listing} locale={locale} />
      <p>
        <a className="act-link" href={`/lots/${lot}`}>
          Sign in to see all of it and make an offer
        </a>
      </p>
    </article>
  );
}

async function found(lotId: string) {
  try {
    return await readPublicListing(await openedRecord(), { lotId });
  } catch (error) {
    if (!refusalOf(error)) throw error;
    return notFound();
  }
}
