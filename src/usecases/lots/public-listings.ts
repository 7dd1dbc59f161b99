/**
 * Feed for sale as anybody may see it: the extracts that sellers made public, read by a role that sees nothing else.
 */
import type { PublicExtract } from '../../domain/lots/public-extract.ts';
import { isId } from '../agreements/find-agreement.ts';
import type { Tools } from '../context.ts';
import { Refusal } from '../refusal.ts';

export interface PublicListing extends PublicExtract {
  readonly lotId: string;
  /** ISO 8601, UTC. */
  readonly postedAt: string;
}

const MOST_LISTED = 500;

/** Listings whose last day is not over, the newest first. */
export async function readPublicListings({ store, now }: Tools): Promise<readonly PublicListing[]> {
  const rows = await store.forPublic((tx) =>
    tx.publicListing.findMany({
      where: { openUntil: { gt: new Date(now()) } },
      orderBy: [{ postedAt: 'desc' }, { lotId: 'asc' }],
      take: MOST_LISTED,
    }),
  );
  return rows.map(listingOf);
}

/** One of them. Refuses `not-found`. */
export async function readPublicListing(
  { store, now }: Tools,
  { lotId }: { readonly lotId: string },
): Promise<PublicListing> {
  const row = isId(lotId)
    ? await store.forPublic((tx) =>
        tx.publicListing.findFirst({ where: { lotId, openUntil: { gt: new Date(now()) } } }),
      )
    : null;
  if (!row) throw new Refusal('not-found', 'There is no such feed for sale.');
  return listingOf(row);
}

function listingOf(row: {
  readonly lotId: string;
  readonly document: string;
  readonly postedAt: Date;
}): PublicListing {
  const extract = JSON.parse(row.document) as PublicExtract;
  return { ...extract, lotId: row.lotId, postedAt: row.postedAt.toISOString() };
}
