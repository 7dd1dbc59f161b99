/**
 * A party agrees that the two sides of an agreement see each other's lists, or no longer does. It is no entry of the journal,
 * so a sealed season takes it too.
 */
import type { Transaction } from '../../store/open-store.ts';
import { lockAgreement } from '../../store/rows/agreement-rows.ts';
import { insertListConsent, readListConsents } from '../../store/rows/list-consent-rows.ts';
import { findOwnAgreement } from '../agreements/find-agreement.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tellPartner } from '../notices/tell-partner.ts';

export interface ListConsent {
  readonly agreementId: string;
  readonly word: 'given' | 'withdrawn';
  readonly key?: string;
}

/**
 * Records the word of the caller's side and tells the other; nothing where it stands already. Returns whether both agree now.
 * Refuses `not-allowed`, `not-found`, `not-yours`, `key-reused`.
 */
export async function consentToLists(
  context: Context,
  { agreementId, word, key }: ListConsent,
): Promise<{ readonly areShared: boolean }> {
  permit(context, 'correct');
  const asked = { verb: 'consent-to-lists', subject: agreementId, key, input: { word } };
  return await doOnce(context, asked, async (tx) => {
    const found = await findOwnAgreement(tx, context.caller, agreementId);
    await lockAgreement(tx, agreementId);
    const { partyId, personId } = context.caller;
    const words = await readListConsents(tx, agreementId);
    const ours = words.find((one) => one.partyId === partyId);
    if ((ours?.word ?? 'withdrawn') !== word) {
      const recorded = { agreementId, recordedAt: stamp(context), recordedBy: personId };
      const version = (ours?.version ?? 0) + 1;
      await insertListConsent(tx, { id: context.newId(), partyId, version, word }, recorded);
      await tellPartner(tx, context, { found, kind: word === 'given' ? 'lists-shown' : 'lists-withdrawn' });
    }
    return { areShared: await listsAreShared(tx, agreementId) };
  });
}

/** Whether the last word of both parties is that they agree. */
export async function listsAreShared(tx: Transaction, agreementId: string): Promise<boolean> {
  const words = await readListConsents(tx, agreementId);
  return words.length === 2 && words.every(({ word }) => word === 'given');
}
