/**
 * One offer as its page shows it: what `readOffer` reads, how it stands in a sentence, what its newest version is held
 * against, and the agreement that it is about.
 */
import { agreementName } from '../../domain/agreement/agreement-name.ts';
import { FEEDS } from '../../domain/agreement/measures.ts';
import { askingAgreement } from '../../domain/lots/lot-document.ts';
import { quotesWanted } from '../../domain/lots/worth-to-buyer.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readLot } from '../../store/rows/lot-rows.ts';
import { readSerials } from '../../store/rows/signing-rows.ts';
import { type FoundAgreement, findAgreement } from '../agreements/find-agreement.ts';
import type { Context } from '../context.ts';
import { lotOf } from '../lots/find-lot.ts';
import { gatherQuotes } from '../lots/lot-quotes.ts';
import { findOffer } from './find-offer.ts';
import { standingOfOffer, termsOf, zoneOf } from './offer-words.ts';
import { type OfferView, readOffer } from './read-offer.ts';

type Document = Readonly<Record<string, unknown>>;

export interface OfferPage {
  readonly offer: OfferView;
  /** One sentence, the same for both sides. */
  readonly standing: string;
  /** In which its moments are told. */
  readonly timeZone: string;
  readonly now: number;
  /** With the parts of the ear in it. */
  readonly feed: string | undefined;
  /** What the newest version is held against: the version before it, the lot's asking formula, or the terms in force. */
  readonly before: { readonly name: string; readonly document: Document } | undefined;
  /** The agreement that an amendment or a closing is about. */
  readonly agreement: { readonly id: string; readonly name: string } | undefined;
  /** Recorded quotes by the formula's own names. */
  readonly quotes: Readonly<Record<string, string>>;
}

/** Refuses `not-allowed`, and `not-found` for an offer that is none of the caller's party's. */
export async function readOfferPage(
  context: Context,
  { offerId }: { readonly offerId: string },
): Promise<OfferPage> {
  const offer = await readOffer(context, { offerId });
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const row = await findOffer(tx, offerId);
    const about = row.agreementId === null ? undefined : await findAgreement(tx, row.agreementId);
    const timeZone = zoneOf(offer.newest.document) ?? about?.agreement.timeZone ?? 'UTC';
    const terms = termsOf(offer.newest.document);
    const feed = terms?.feed ?? about?.agreement.feed;
    return {
      offer,
      standing: standingOfOffer(row, context, timeZone),
      timeZone,
      now: context.now(),
      feed: feed && FEEDS[feed],
      before: await beforeNewest(tx, offer, about),
      agreement: about && { id: about.row.id, name: await nameOf(tx, about) },
      quotes: terms ? await recordedQuotes(tx, terms) : {},
    };
  });
}

async function nameOf(tx: Transaction, { row }: FoundAgreement): Promise<string> {
  const serial = (await readSerials(tx)).get(row.id) ?? null;
  return agreementName({ serial, number: row.number, seller: row.sellerName });
}

async function beforeNewest(
  tx: Transaction,
  { purpose, versions, lot, newest }: OfferView,
  about: FoundAgreement | undefined,
): Promise<OfferPage['before']> {
  if (purpose === 'closing') return undefined;
  const earlier = versions.at(-2);
  if (earlier) return { name: `version ${earlier.version}`, document: earlier.document };
  // An amendment that was signed is a version of the agreement itself by now.
  const became = about?.versions.findIndex(({ row }) => row.fingerprint === newest.fingerprint) ?? -1;
  const inForce = became > 0 ? about?.versions[became - 1] : about?.versions.at(-1);
  if (inForce) {
    return {
      name: `version ${inForce.row.version} of the agreement`,
      document: JSON.parse(inForce.row.document) as Document,
    };
  }
  const found = lot && (await readLot(tx, lot.id));
  if (!found) return undefined;
  const { id, seller, buyer } = newest.document as { id: string; seller: string; buyer: string };
  return {
    name: 'the asking formula as it stands now',
    document: { ...askingAgreement(lotOf(found.document), { id, seller, buyer }) },
  };
}

/** The newest quotes that are recorded under an agreement of the party's own, by the formula's names. */
export async function recordedQuotes(
  tx: Transaction,
  terms: Parameters<typeof quotesWanted>[0],
): Promise<Readonly<Record<string, string>>> {
  const wanted = quotesWanted(terms);
  const known = new Map((await gatherQuotes(tx, wanted, new Map())).map(({ key, quote }) => [key, quote]));
  return Object.fromEntries(
    wanted.flatMap(({ reference, key }): [string, string][] => {
      const quote = known.get(key);
      return quote === undefined ? [] : [[reference, quote]];
    }),
  );
}
