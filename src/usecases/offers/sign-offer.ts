/**
 * Signs the newest version of an offer for the caller's party. When both have signed the same version it takes effect at
 * once, in the same transaction: an agreement, an amendment of one, or its early end.
 */

import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { readLot } from '../../store/rows/lot-rows.ts';
import { insertSignature, lockLot, type OfferRow, readOfferVersions } from '../../store/rows/offer-rows.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tell } from '../notices/tell.ts';
import { checkPassword } from '../people/check-password.ts';
import { badInput } from '../read-input-rows.ts';
import { Refusal } from '../refusal.ts';
import { findOwnOffer, otherParty, refuseEnded, refuseLapsed, refuseMoved } from './find-offer.ts';
import { refuseClosed } from './make-offer.ts';
import { takeEffect } from './take-effect.ts';

export interface OfferToSign {
  readonly offerId: string;
  /** The version that was read, and its fingerprint. */
  readonly version: number;
  readonly fingerprint: string;
  /** The signer's name as typed. */
  readonly name: string;
  readonly password: string;
  /** The network address that the request came from. */
  readonly address: string;
  readonly key?: string;
}

export interface Signed {
  /** The agreement that it is about, once both have signed. */
  readonly agreementId: string | null;
}

/**
 * Refuses `not-allowed`, `bad-input` (the typed name), `too-many-tries`, `wrong-sign-in`, `not-found`, `not-yours`,
 * `offer-over`, `offer-moved`, `offer-lapsed`, `lot-closed`, `delivered-already`. A party that has signed the version
 * signs it no second time.
 */
export async function signOffer(
  context: Context,
  { offerId, version, fingerprint, name, password, address, key }: OfferToSign,
): Promise<Signed> {
  permit(context, 'sign');
  const { personId, partyId } = context.caller;
  const own = await checkPassword(context, { personId, password, address });
  if (plain(name) !== plain(own)) {
    throw badInput([{ column: 'name', message: `must be your own name as it stands here: ${own}` }]);
  }
  const input = { version, fingerprint, name: name.trim() };
  return await doOnce(context, { verb: 'sign', subject: offerId, key, input }, async (tx) => {
    const offer = await lockedOffer(tx, context, offerId);
    refuseEnded(offer);
    refuseMoved(offer, version);
    if (offer.fingerprint !== fingerprint) {
      throw new Refusal(
        'offer-moved',
        'What you read is not what was sent. Open the offer again and read it.',
      );
    }
    if (offer.signedBy.includes(partyId)) return { agreementId: null };
    refuseLapsed(offer, context);
    const lot = offer.lotId === null ? undefined : await readLot(tx, offer.lotId);
    if (lot) refuseClosed(lot, context);
    await insertSignature(tx, {
      offerId,
      version,
      partyId,
      personId,
      name: name.trim(),
      fingerprint,
      signedAt: stamp(context),
    });
    const other = otherParty(offer, context);
    if (!offer.signedBy.includes(other)) {
      await tell(tx, context, [{ partyId: other, kind: 'offer-signed', subjectId: offerId }]);
      return { agreementId: null };
    }
    const signed = (await readOfferVersions(tx, offerId)).at(-1);
    if (!signed) throw new Error('An offer that was signed has no version');
    return { agreementId: await takeEffect(tx, context, { offer, signed }) };
  });
}

/** The offer, with what it is about locked, so that two who sign at once do it one after the other. */
async function lockedOffer(tx: Transaction, context: Context, offerId: string): Promise<OfferRow> {
  const { lotId, agreementId } = await findOwnOffer(tx, context, offerId);
  if (lotId !== null) await lockLot(tx, lotId);
  if (agreementId !== null) await lockAgreement(tx, agreementId);
  return await findOwnOffer(tx, context, offerId);
}

/** A name without what typing it again may change. */
function plain(name: string): string {
  return name.normalize('NFC').trim().replace(/\s+/g, ' ').toLocaleLowerCase('en');
}
