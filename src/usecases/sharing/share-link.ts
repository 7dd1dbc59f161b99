/**
 * Writes a link by which one other party comes, once. Its secret is told now and kept nowhere.
 */

import { type Subject, subjectId } from '../../domain/advice/subject.ts';
import { whenText } from '../../domain/dates/instant.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertShareLink, type SharePurpose } from '../../store/rows/share-rows.ts';
import { type Context, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { newSecret, secretHash } from '../people/secret-link.ts';

export interface ShareLink {
  readonly secret: string;
  /** Milliseconds since 1970-01-01T00:00:00Z. */
  readonly expiresAt: number;
}

const DAYS_VALID = 14;
const DAY = 86_400_000;

export interface LinkToGive {
  readonly subject: Subject;
  readonly purpose: SharePurpose;
  /** Refuses what may not be shown. */
  readonly check: (tx: Transaction) => Promise<void>;
}

export async function giveLink(
  context: Context,
  { subject, purpose, check }: LinkToGive,
): Promise<ShareLink> {
  const secret = newSecret();
  const expiresAt = context.now() + DAYS_VALID * DAY;
  const verb = purpose === 'adviser' ? 'ask-adviser' : 'share-lot';
  // Without a request key: an answer that is kept would keep the secret.
  await doOnce(context, { verb, subject: subjectId(subject), key: undefined, input: {} }, async (tx) => {
    await check(tx);
    await insertShareLink(tx, {
      id: context.newId(),
      partyId: context.caller.partyId,
      purpose,
      lotId: 'lotId' in subject ? subject.lotId : null,
      offerId: 'offerId' in subject ? subject.offerId : null,
      agreementId: 'agreementId' in subject ? subject.agreementId : null,
      tokenHash: secretHash(secret),
      createdBy: context.caller.personId,
      createdAt: stamp(context),
      expiresAt: whenText(expiresAt),
    });
    return {};
  });
  return { secret, expiresAt };
}
