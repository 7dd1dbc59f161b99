/**
 * One lot with all that the reader may know of it: its tests and files, the asking formula in words, its price on the
 * reader's basis, and the reader's own offers. Of other buyers it tells nothing but that somebody has signed.
 */
import { figuresFor } from '../../documents/figures.ts';
import {
  askingAgreement,
  type LotTest,
  PUBLIC_PARTS,
  type PublicPart,
} from '../../domain/lots/lot-document.ts';
import type { PublicExtract } from '../../domain/lots/public-extract.ts';
import { publicExtract } from '../../domain/lots/public-extract.ts';
import { quotesWanted } from '../../domain/lots/worth-to-buyer.ts';
import { printDecimal } from '../../domain/numbers/printing.ts';
import { type OfferState, offerState } from '../../domain/offers/offer.ts';
import { agreementInWords } from '../../domain/words/agreement-words.ts';
import { type LotFileRow, readGuestNames, readLotFiles } from '../../store/rows/lot-file-rows.ts';
import { readOffers } from '../../store/rows/offer-rows.ts';
import { type Context, permit } from '../context.ts';
import { figuresOf, turnOf } from '../offers/read-offer.ts';
import type { ReadersBasis } from './feed-request.ts';
import { findLot } from './find-lot.ts';
import type { AskedQuote } from './lot-quotes.ts';
import type { LotSummary } from './lot-summary.ts';
import { openLots } from './read-feed-for-sale.ts';

export interface OfferOnLot {
  readonly id: string;
  /** The party on the other side. */
  readonly other: string;
  readonly state: OfferState;
  readonly isSigned: boolean;
  /** Whose move it is; undefined for one that has ended. */
  readonly turn: 'yours' | 'theirs' | undefined;
}

export interface LotView {
  readonly summary: LotSummary;
  readonly version: number;
  /** ISO 8601, UTC. */
  readonly updatedAt: string;
  readonly timeZone: string;
  /** As it was written, for a form. */
  readonly document: Readonly<Record<string, unknown>>;
  readonly tests: readonly LotTest[];
  /** The same as figures by measure. */
  readonly lotTests: readonly Readonly<Record<string, string>>[];
  readonly files: readonly LotFileRow[];
  readonly particleSize: string | undefined;
  readonly inoculant: string | undefined;
  readonly notes: string | undefined;
  /** Told to the seller, and to the buyer once both have signed. */
  readonly address: string | null;
  /** The asking formula in sentences. */
  readonly asking: readonly { readonly heading: string; readonly paragraphs: readonly string[] }[];
  /** The asking formula as an agreement file with stand-ins for its names. */
  readonly askingDraft: Readonly<Record<string, unknown>>;
  readonly quotes: readonly AskedQuote[];
  /** The quotes by the formula's own names, where they are known. */
  readonly quotesByReference: Readonly<Record<string, string>>;
  /** The reader's own; for the seller all buyers'. */
  readonly offers: readonly OfferOnLot[];
  /** Whom the reader advises on the lot, or on an offer on it; it makes no offer of its own then. */
  readonly advises: string | undefined;
  /** The distance as the reader wrote it down. */
  readonly road: { readonly length: string; readonly unit: 'mile' | 'km' } | undefined;
  readonly hasPlace: boolean;
  /** For the seller alone: who was invited, and what anybody may see. */
  readonly guests: readonly string[];
  readonly publicParts: readonly PublicPart[] | undefined;
  /** What anybody could be shown, were every part marked; for the seller alone. */
  readonly everyPart: PublicExtract | undefined;
}

/** Refuses `not-allowed`, and `not-found` for a lot that the caller's party may not see. */
export async function readLotView(
  context: Context,
  { lotId, basis, locale }: { readonly lotId: string; readonly basis: ReadersBasis; readonly locale: string },
): Promise<LotView> {
  permit(context, 'read');
  const { partyId } = context.caller;
  return await context.store.forParty(partyId, async (tx) => {
    await findLot(tx, lotId);
    const { lots, place, quotes, summarize } = await openLots(tx, context, { basis, locale, only: [lotId] });
    const [opened] = lots;
    const [summary] = summarize(lots);
    if (!opened || !summary) throw new Error('A lot that was found is not there');
    const { row, lot } = opened;
    const isOwn = row.sellerId === partyId;
    const asking = askingAgreement(lot);
    const figures = figuresFor(locale);
    const haul = opened.way?.view.kind === 'road' ? opened.way.haul : undefined;
    const known = new Map(quotes.map(({ key, quote }) => [key, quote]));
    const tests = lot.tests ?? [];
    const advice = await tx.advice.findFirst({
      where: { adviserId: partyId, endedAt: null, OR: [{ lotId }, { offer: { lotId } }] },
      select: { party: { select: { name: true } } },
    });
    return {
      summary,
      version: row.version,
      updatedAt: row.updatedAt,
      timeZone: lot.timeZone,
      document: JSON.parse(row.document) as Record<string, unknown>,
      tests,
      lotTests: tests.map(figuresOf),
      files: await readLotFiles(tx, lotId),
      particleSize: lot.particleSize && `${figures.show(lot.particleSize)} µm`,
      inoculant: lot.inoculant,
      notes: lot.notes,
      address: row.address,
      asking: agreementInWords(asking).map(({ heading, paragraphs }, index) => ({
        // The first is named by the agreement’s number, which only an offer has.
        heading: index === 0 ? 'In general' : heading,
        paragraphs,
      })),
      askingDraft: { ...asking },
      quotes,
      quotesByReference: Object.fromEntries(
        quotesWanted(asking).flatMap(({ reference, key }): [string, string][] => {
          const quote = known.get(key);
          return quote === undefined ? [] : [[reference, quote]];
        }),
      ),
      offers: (await readOffers(tx))
        .filter((offer) => offer.lotId === lotId && [offer.sellerId, offer.buyerId].includes(partyId))
        .map((offer) => ({
          id: offer.id,
          other: isOwn ? offer.buyerName : offer.sellerName,
          state: offerState(offer, context.now()),
          isSigned: offer.signedBy.length > 0,
          turn: turnOf(offer, context),
        })),
      advises: advice?.party.name,
      road: haul && { length: printDecimal(haul.length), unit: haul.unit },
      hasPlace: place !== undefined,
      guests: isOwn ? await readGuestNames(tx, lotId) : [],
      publicParts:
        isOwn && row.listing !== null ? (JSON.parse(row.listing) as PublicExtract).parts : undefined,
      everyPart: isOwn ? publicExtract(lot, { seller: row.sellerName, parts: PUBLIC_PARTS }) : undefined,
    };
  });
}
