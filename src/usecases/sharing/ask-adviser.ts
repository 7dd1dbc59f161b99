/**
 * Gives a link by which an adviser's practice comes to look at one lot, one offer or one agreement for the caller's party.
 */
import type { Subject } from '../../domain/advice/subject.ts';
import type { Transaction } from '../../store/open-store.ts';
import { seesLot } from '../../store/rows/advice-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit } from '../context.ts';
import { findLot } from '../lots/find-lot.ts';
import { findOwnOffer } from '../offers/find-offer.ts';
import { Refusal } from '../refusal.ts';
import { giveLink, type ShareLink } from './share-link.ts';

/** Refuses `not-allowed`, `not-found`, and `not-yours` for what the caller's party advises on itself. */
export async function askAdviser(context: Context, subject: Subject): Promise<ShareLink> {
  permit(context, 'invite');
  return await giveLink(context, {
    subject,
    purpose: 'adviser',
    check: (tx) => findOwn(tx, context, subject),
  });
}

async function findOwn(tx: Transaction, context: Context, subject: Subject): Promise<void> {
  if ('offerId' in subject) await findOwnOffer(tx, context, subject.offerId);
  else if ('agreementId' in subject) await findOwnAgreement(tx, context.caller, subject.agreementId);
  else {
    const { id: lotId } = await findLot(tx, subject.lotId);
    if (!(await seesLot(tx, { partyId: context.caller.partyId, lotId }))) {
      throw new Refusal('not-yours', 'You see this lot as an adviser; whoever asked you invites others.');
    }
  }
}
