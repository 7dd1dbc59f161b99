/**
 * Proposals about an agreement that stands: an amendment from a day on, or its early end. Either side may propose; both
 * must sign.
 */
import { parseLocalDate } from '../../domain/dates/local-date.ts';
import { checkAmendment, checkTerms } from '../../domain/offers/check-terms.ts';
import { CLOSING_FORMAT, checkClosing } from '../../domain/offers/closing-document.ts';
import type { Purpose } from '../../domain/offers/offer.ts';
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readLastDay } from '../../store/rows/load-days.ts';
import { insertOffer, readOffers } from '../../store/rows/offer-rows.ts';
import { readClosing } from '../../store/rows/signing-rows.ts';
import { type FoundAgreement, findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tell } from '../notices/tell.ts';
import { type Problem, Refusal } from '../refusal.ts';
import { otherParty } from './find-offer.ts';
import { readSending, type Sending, sendVersion, termProblems } from './send-version.ts';

export interface AmendmentToPropose extends Sending {
  readonly agreementId: string;
  /** The whole agreement file as it is to be. */
  readonly document: Readonly<Record<string, unknown>>;
  /** Loads delivered from this local date are under it. */
  readonly effectiveFrom: string;
  readonly key?: string;
}

/**
 * Returns the proposal's id. Refuses `not-allowed`, `bad-input`, `not-found`, `not-yours`, `agreement-closed`,
 * `offer-open` while another proposal on the agreement is open.
 */
export async function proposeAmendment(
  context: Context,
  { agreementId, document, effectiveFrom, key, ...sending }: AmendmentToPropose,
): Promise<{ readonly offerId: string }> {
  permit(context, 'make-offer');
  const input = { document, effectiveFrom, ...sending };
  return await doOnce(
    context,
    { verb: 'propose-amendment', subject: agreementId, key, input },
    async (tx) => {
      const found = await findToChange(tx, context, agreementId);
      const { id, seller, buyer } = found.agreement;
      const terms = { ...document, id, seller, buyer };
      const { agreement, problems } = checkTerms(terms);
      const told = [
        ...termProblems([...problems, ...(agreement ? checkAmendment(found.agreement, agreement) : [])]),
        ...(await effectiveDateProblems(tx, { agreementId, effectiveFrom })),
      ];
      const { message, days } = readSending(sending, told);
      const sent = { document: terms, message, days, effectiveFrom };
      return await propose(tx, context, { found, purpose: 'amendment', sent });
    },
  );
}

export interface ClosingToPropose extends Sending {
  readonly agreementId: string;
  /** The last local date of delivery. */
  readonly lastDelivery: string;
  readonly reason?: string;
  readonly key?: string;
}

/** Returns the proposal's id. Refuses as `proposeAmendment`. */
export async function proposeClosing(
  context: Context,
  { agreementId, lastDelivery, reason = '', key, ...sending }: ClosingToPropose,
): Promise<{ readonly offerId: string }> {
  permit(context, 'make-offer');
  const input = { lastDelivery, reason, ...sending };
  return await doOnce(context, { verb: 'propose-closing', subject: agreementId, key, input }, async (tx) => {
    const found = await findToChange(tx, context, agreementId);
    const { id, seller, buyer } = found.agreement;
    const document = {
      format: CLOSING_FORMAT,
      agreement: id,
      fingerprint: found.row.fingerprint,
      seller,
      buyer,
      lastDelivery,
      ...(reason.trim() === '' ? {} : { reason: reason.trim() }),
    };
    const told = checkClosing(document).problems.map(({ path, message }) => ({
      column: String(path[0] ?? 'lastDelivery'),
      message,
    }));
    const { message, days } = readSending(sending, [
      ...told,
      ...(told.length > 0 ? [] : await lastDeliveryProblems(tx, { agreementId, lastDelivery })),
    ]);
    const sent = { document, message, days, effectiveFrom: null };
    return await propose(tx, context, { found, purpose: 'closing', sent });
  });
}

async function findToChange(tx: Transaction, context: Context, agreementId: string): Promise<FoundAgreement> {
  const found = await findOwnAgreement(tx, context.caller, agreementId);
  await lockAgreement(tx, agreementId);
  if (await readClosing(tx, agreementId)) {
    throw new Refusal('agreement-closed', 'Both sides have closed this agreement already.');
  }
  const open = (await readOffers(tx)).find(
    (offer) => offer.agreementId === agreementId && offer.ending === null,
  );
  if (open) {
    throw new Refusal(
      'offer-open',
      'A proposal on this agreement is open already. Sign, answer, decline or withdraw that one first.',
    );
  }
  return found;
}

interface Proposal {
  readonly found: FoundAgreement;
  readonly purpose: Exclude<Purpose, 'agreement'>;
  readonly sent: {
    readonly document: unknown;
    readonly message: string | null;
    readonly days: number;
    readonly effectiveFrom: string | null;
  };
}

async function propose(
  tx: Transaction,
  context: Context,
  { found, purpose, sent }: Proposal,
): Promise<{ readonly offerId: string }> {
  const { id: agreementId, sellerId, buyerId } = found.row;
  const offerId = context.newId();
  await insertOffer(tx, {
    id: offerId,
    purpose,
    sellerId,
    buyerId,
    lotId: null,
    agreementId,
    createdAt: stamp(context),
  });
  await sendVersion(tx, context, { offerId, version: 1, ...sent });
  const kind = purpose === 'amendment' ? 'amendment-came' : 'closing-came';
  await tell(tx, context, [
    { partyId: otherParty({ sellerId, buyerId }, context), kind, subjectId: offerId },
  ]);
  return { offerId };
}

/** A load that has settled keeps its price, so an amendment counts from a later day than any of those. */
export async function effectiveDateProblems(
  tx: Transaction,
  { agreementId, effectiveFrom }: { readonly agreementId: string; readonly effectiveFrom: string },
): Promise<Problem[]> {
  if (parseLocalDate(effectiveFrom) === undefined) {
    return [{ column: 'effectiveFrom', message: 'must be a date like 2026-09-14' }];
  }
  const settled = await readLastDay(tx, agreementId, 'settled');
  if (settled === null || settled < effectiveFrom) return [];
  return [
    {
      column: 'effectiveFrom',
      message: `must be after ${settled}: a load of that day has settled, and keeps the terms it was delivered under`,
    },
  ];
}

/** A closing leaves every load in that was delivered. */
export async function lastDeliveryProblems(
  tx: Transaction,
  { agreementId, lastDelivery }: { readonly agreementId: string; readonly lastDelivery: string },
): Promise<Problem[]> {
  const delivered = await readLastDay(tx, agreementId, 'delivered');
  if (delivered === null || delivered <= lastDelivery) return [];
  return [
    { column: 'lastDelivery', message: `must not be before ${delivered}: a load was delivered on that day` },
  ];
}
