/**
 * What is said of an offer beside its terms: in which time zone its moments are told, and how it stands.
 */
import { checkAgreement } from '../../domain/agreement/check-agreement.ts';
import type { Agreement } from '../../domain/agreement/document.ts';
import { isTimeZone } from '../../domain/dates/instant.ts';
import { momentInWords } from '../../domain/dates/moment-words.ts';
import { offerState } from '../../domain/offers/offer.ts';
import { offerStandingInWords, type Side } from '../../domain/offers/standing-words.ts';
import type { OfferRow } from '../../store/rows/offer-rows.ts';
import type { Context } from '../context.ts';

/** An offered document as an agreement; undefined for what closes one. */
export function termsOf(document: Readonly<Record<string, unknown>>): Agreement | undefined {
  return checkAgreement(document).agreement;
}

/** The zone that a document names; undefined for what closes an agreement. */
export function zoneOf({ timeZone }: Readonly<Record<string, unknown>>): string | undefined {
  return typeof timeZone === 'string' && isTimeZone(timeZone) ? timeZone : undefined;
}

/** Which side of an offer a party is. */
export function offerSide({ sellerId }: Pick<OfferRow, 'sellerId'>, partyId: string): Side {
  return partyId === sellerId ? 'seller' : 'buyer';
}

/** One sentence, the same for both sides. */
export function standingOfOffer(row: OfferRow, context: Context, timeZone: string): string {
  const now = context.now();
  return offerStandingInWords({
    purpose: row.purpose,
    state: offerState(row, now),
    seller: row.sellerName,
    buyer: row.buyerName,
    version: row.version,
    by: offerSide(row, row.byPartyId),
    signedBy: row.signedBy.map((id) => offerSide(row, id)),
    until: momentInWords(row.validUntil, { timeZone, now }),
    lotNumber: row.lotNumber ?? undefined,
  });
}
