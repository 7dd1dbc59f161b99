/**
 * A version of an offer as PDF, with the signatures that stand under it. It says plainly what it is not.
 */
import type { PaperSignature } from '../../documents/agreement/agreement-paper.ts';
import type { FontBytes } from '../../documents/pdf/typeface.ts';
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { type OfferRow, type OfferVersionRow, readOfferVersions } from '../../store/rows/offer-rows.ts';
import { agreementOf } from '../agreements/find-agreement.ts';
import { lastMoment, type PrintedPaper, paperName, renderPaper } from '../agreements/render-paper.ts';
import { type Context, permit } from '../context.ts';
import { Refusal } from '../refusal.ts';
import { findOffer } from './find-offer.ts';
import { offerSide } from './offer-words.ts';

export interface OfferToPrint {
  readonly offerId: string;
  /** Undefined for the newest. */
  readonly version: number | undefined;
  readonly fonts: FontBytes;
}

/**
 * Refuses `not-allowed`, `not-found` (also for a version that there is none of), `not-ready` for a proposal to close an
 * agreement, which has no terms, and `bad-input` where a character cannot be printed.
 */
export async function printOffer(
  context: Context,
  { offerId, version, fonts }: OfferToPrint,
): Promise<PrintedPaper> {
  permit(context, 'read');
  const { offer, printed } = await context.store.forParty(context.caller.partyId, async (tx) => {
    const row = await findOffer(tx, offerId);
    const versions = await readOfferVersions(tx, offerId);
    return { offer: row, printed: versions.find((one) => one.version === (version ?? row.version)) };
  });
  if (!printed) throw new Refusal('not-found', `There is no version ${version} of this offer.`);
  if (offer.purpose === 'closing') {
    throw new Refusal(
      'not-ready',
      'A proposal to close an agreement has no terms to print; its page says it all.',
    );
  }
  const agreement = agreementOf(printed.document);
  const signatures = printed.signatures.map(
    ({ partyId, name, signedAt }): PaperSignature => ({
      party: partyId === offer.sellerId ? offer.sellerName : offer.buyerName,
      side: offerSide(offer, partyId),
      name,
      signedAt,
    }),
  );
  const bytes = await renderPaper(
    {
      title: titleOf(offer, signatures),
      agreement,
      canonical: printed.document,
      fingerprint: printed.fingerprint,
      version: String(printed.version),
      ...(printed.effectiveFrom === null ? {} : { effectiveFrom: printed.effectiveFrom }),
      signatures,
      standing: standing(offer, printed, zoneCalendar(agreement.timeZone).wallClockAt(printed.validUntil)),
    },
    { fonts, createdOn: lastMoment(signatures) ?? printed.sentAt },
  );
  return { bytes, name: paperName('offer', agreement.id, printed.version) };
}

function titleOf({ purpose }: OfferRow, { length }: readonly PaperSignature[]): string {
  const what = purpose === 'amendment' ? 'Proposed amendment' : 'Offer';
  if (length === 0) return `${what}, not signed`;
  return length === 1 ? `${what}, signed by one side` : `${what}, signed by both sides`;
}

/** What the paper is worth by the record as it is; nothing of the day on which it is printed. */
function standing(offer: OfferRow, printed: OfferVersionRow, until: string): string {
  const { sellerName, buyerName, sellerId, ending, version } = offer;
  const sender = printed.byPartyId === sellerId ? sellerName : buyerName;
  const [first, second] = printed.signatures;
  if (second) {
    return offer.purpose === 'amendment'
      ? 'Signed by both sides: it is a version of the agreement.'
      : 'Signed by both sides: it is an agreement.';
  }
  const signed =
    first === undefined
      ? 'Nobody has signed it.'
      : `${first.partyId === sellerId ? sellerName : buyerName} alone has signed it; it binds nobody until the other side signs the same version.`;
  const replaced =
    printed.version < version
      ? ` A newer version replaced it.`
      : ending === null
        ? ''
        : ' The offer is over; nothing was agreed.';
  return `Sent by ${sender}, to be signed by ${until}. ${signed}${replaced}`;
}
