/**
 * The offers of the caller's party, by lot or by the agreement that they would change. A seller sees several buyers'
 * offers on one lot beside one another; a buyer only its own.
 */
import { agreementName } from '../../domain/agreement/agreement-name.ts';
import type { Agreement } from '../../domain/agreement/document.ts';
import { FEEDS } from '../../domain/agreement/measures.ts';
import { momentInWords } from '../../domain/dates/moment-words.ts';
import { type OfferState, offerState, type Purpose } from '../../domain/offers/offer.ts';
import type { Side } from '../../domain/offers/standing-words.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readLot } from '../../store/rows/lot-rows.ts';
import { type OfferRow, readOffers, readOfferVersions } from '../../store/rows/offer-rows.ts';
import { readSerials } from '../../store/rows/signing-rows.ts';
import { findAgreement, sideOf } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { lotOf } from '../lots/find-lot.ts';
import { type ComparedOffers, compareOffers } from './compare-offers.ts';
import { offerSide, standingOfOffer, termsOf, zoneOf } from './offer-words.ts';
import { turnOf } from './read-offer.ts';

export interface OfferLine {
  readonly id: string;
  readonly purpose: Purpose;
  readonly state: OfferState;
  readonly seller: string;
  readonly buyer: string;
  /** The caller's side; an adviser looks on. */
  readonly side: Side | 'adviser';
  readonly version: number;
  /** Who sent the newest version. */
  readonly by: Side;
  readonly signedBy: readonly Side[];
  readonly turn: 'yours' | 'theirs' | undefined;
  /** "2 December, 14:05" */
  readonly until: string;
  /** One sentence, the same for both sides. */
  readonly standing: string;
  /** ISO 8601, UTC. */
  readonly sentAt: string;
}

export interface OfferGroup {
  readonly lot:
    | { readonly id: string; readonly number: number; readonly feed: string | undefined }
    | undefined;
  /** The agreement that these would change. */
  readonly agreement: { readonly id: string; readonly name: string } | undefined;
  readonly seller: string;
  /** The last sent first. */
  readonly offers: readonly OfferLine[];
  /** For the seller of a lot with two open offers or more. */
  readonly beside: ComparedOffers | undefined;
}

export interface OffersRequest {
  readonly locale: string;
  /** Typed quotes to look at offers with, by `QuoteWanted.key`. */
  readonly quotes?: ReadonlyMap<string, string>;
}

/** The group with the last word first. Refuses `not-allowed`. */
export async function readOfferList(
  context: Context,
  request: OffersRequest,
): Promise<readonly OfferGroup[]> {
  permit(context, 'read');
  return await context.store.forParty(context.caller.partyId, async (tx) => {
    const groups = new Map<string, OfferRow[]>();
    for (const row of await readOffers(tx)) {
      const about = row.lotId ?? row.agreementId ?? row.id;
      groups.set(about, [...(groups.get(about) ?? []), row]);
    }
    const read: OfferGroup[] = [];
    for (const rows of groups.values()) read.push(await readGroup(tx, context, { rows, request }));
    return read;
  });
}

interface ToRead {
  readonly rows: readonly OfferRow[];
  readonly request: OffersRequest;
}

async function readGroup(tx: Transaction, context: Context, { rows, request }: ToRead): Promise<OfferGroup> {
  const [first] = rows;
  if (!first) throw new Error('A group of offers is empty');
  const about = first.agreementId === null ? undefined : await findAgreement(tx, first.agreementId);
  const lotRow = first.lotId === null ? undefined : await readLot(tx, first.lotId);
  const lot = lotRow && lotOf(lotRow.document);
  const offers: OfferLine[] = [];
  const compared: { readonly id: string; readonly agreement: Agreement }[] = [];
  for (const row of rows) {
    const newest = (await readOfferVersions(tx, row.id)).at(-1);
    const document = JSON.parse(newest?.document ?? '{}') as Record<string, unknown>;
    const timeZone = zoneOf(document) ?? about?.agreement.timeZone ?? 'UTC';
    const line = lineOf(row, context, timeZone);
    offers.push(line);
    const agreement = termsOf(document);
    if (agreement && line.side === 'seller' && line.state === 'open')
      compared.push({ id: row.id, agreement });
  }
  const isMany = lot !== undefined && compared.length > 1;
  return {
    lot:
      first.lotId === null
        ? undefined
        : { id: first.lotId, number: first.lotNumber ?? 0, feed: lot && FEEDS[lot.feed] },
    agreement: about && {
      id: about.row.id,
      name: agreementName({
        serial: (await readSerials(tx)).get(about.row.id) ?? null,
        number: about.row.number,
        seller: about.row.sellerName,
      }),
    },
    seller: first.sellerName,
    offers,
    beside: isMany
      ? await compareOffers(tx, {
          lot,
          offers: compared,
          typed: request.quotes ?? new Map(),
          locale: request.locale,
        })
      : undefined,
  };
}

function lineOf(row: OfferRow, context: Context, timeZone: string): OfferLine {
  const now = context.now();
  return {
    id: row.id,
    purpose: row.purpose,
    state: offerState(row, now),
    seller: row.sellerName,
    buyer: row.buyerName,
    side: sideOf(row, context.caller),
    version: row.version,
    by: offerSide(row, row.byPartyId),
    signedBy: row.signedBy.map((id) => offerSide(row, id)),
    turn: turnOf(row, context),
    until: momentInWords(row.validUntil, { timeZone, now }),
    standing: standingOfOffer(row, context, timeZone),
    sentAt: row.sentAt,
  };
}
