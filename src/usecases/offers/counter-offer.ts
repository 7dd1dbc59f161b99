/**
 * A new version of an offer, by either side: nothing that was sent before is changed, and signatures under the version
 * before count no more.
 */

import type { NoticeKind } from '../../domain/notices/notice.ts';
import { checkAmendment, checkTerms } from '../../domain/offers/check-terms.ts';
import { checkClosing } from '../../domain/offers/closing-document.ts';
import type { Purpose } from '../../domain/offers/offer.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readLot } from '../../store/rows/lot-rows.ts';
import { lockLot, type OfferRow, readOfferVersions } from '../../store/rows/offer-rows.ts';
import { findAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tell } from '../notices/tell.ts';
import type { Problem } from '../refusal.ts';
import { findOwnOffer, otherParty, refuseEnded, refuseMoved } from './find-offer.ts';
import { refuseClosed } from './make-offer.ts';
import { effectiveDateProblems } from './propose-amendment.ts';
import { readSending, type Sending, sendVersion, termProblems } from './send-version.ts';

export interface CounterToSend extends Sending {
  readonly offerId: string;
  /** The newest version, which the caller has read. */
  readonly baseVersion: number;
  readonly document: Readonly<Record<string, unknown>>;
  /** For an amendment: the local date from which it counts. */
  readonly effectiveFrom?: string;
  readonly key?: string;
}

/**
 * Returns the new version's number. Refuses `not-allowed`, `bad-input`, `not-found`, `not-yours`, `lot-closed`,
 * `offer-over`, `offer-moved`, and for an amendment `delivered-already`.
 */
export async function counterOffer(
  context: Context,
  { offerId, baseVersion, document, effectiveFrom, key, ...sending }: CounterToSend,
): Promise<{ readonly version: number }> {
  permit(context, 'make-offer');
  const input = { baseVersion, document, effectiveFrom: effectiveFrom ?? null, ...sending };
  return await doOnce(context, { verb: 'counter-offer', subject: offerId, key, input }, async (tx) => {
    const before = await findOwnOffer(tx, context, offerId);
    if (before.lotId !== null) await lockLot(tx, before.lotId);
    const offer = await findOwnOffer(tx, context, offerId);
    refuseEnded(offer);
    refuseMoved(offer, baseVersion);
    await refuseClosedLot(tx, context, offer);
    const newest = (await readOfferVersions(tx, offerId)).at(-1);
    const was = JSON.parse(newest?.document ?? '{}') as Record<string, unknown>;
    // Whose offer it is, and its number, stay what they are.
    const { id, seller, buyer } = was;
    const terms = { ...document, ...(offer.purpose === 'closing' ? {} : { id }), seller, buyer };
    const { message, days } = readSending(
      sending,
      await problemsOf(tx, { offer, terms, effectiveFrom: effectiveFrom ?? '' }),
    );
    const version = offer.version + 1;
    await sendVersion(tx, context, {
      offerId,
      version,
      document: terms,
      message,
      days,
      effectiveFrom: offer.purpose === 'amendment' ? (effectiveFrom ?? null) : null,
    });
    await tell(tx, context, [
      { partyId: otherParty(offer, context), kind: COUNTERED[offer.purpose], subjectId: offerId },
    ]);
    return { version };
  });
}

const COUNTERED: Readonly<Record<Purpose, NoticeKind>> = {
  agreement: 'offer-countered',
  amendment: 'amendment-came',
  closing: 'closing-came',
};

async function refuseClosedLot(tx: Transaction, context: Context, { lotId }: OfferRow): Promise<void> {
  const lot = lotId === null ? undefined : await readLot(tx, lotId);
  if (lot) refuseClosed(lot, context);
}

interface CounterTerms {
  readonly offer: OfferRow;
  readonly terms: Readonly<Record<string, unknown>>;
  readonly effectiveFrom: string;
}

async function problemsOf(
  tx: Transaction,
  { offer, terms, effectiveFrom }: CounterTerms,
): Promise<Problem[]> {
  if (offer.purpose === 'closing') return termProblems(checkClosing(terms).problems);
  const { agreement, problems } = checkTerms(terms);
  if (offer.agreementId === null) return termProblems(problems);
  const found = await findAgreement(tx, offer.agreementId);
  const changed = agreement ? checkAmendment(found.agreement, agreement) : [];
  return [
    ...termProblems([...problems, ...changed]),
    ...(await effectiveDateProblems(tx, { agreementId: offer.agreementId, effectiveFrom })),
  ];
}
