/**
 * What follows when both parties have signed one version. The offer must be locked, with its lot or its agreement.
 */

import type { NoticeKind } from '../../domain/notices/notice.ts';
import { checkClosing } from '../../domain/offers/closing-document.ts';
import type { Entering } from '../../journal/chain.ts';
import type { Transaction } from '../../store/open-store.ts';
import { insertAgreement, insertVersion, lockAgreement } from '../../store/rows/agreement-rows.ts';
import type { OfferRow, OfferVersionRow } from '../../store/rows/offer-rows.ts';
import { insertClosing, insertSigning, readClosing, readSignings } from '../../store/rows/signing-rows.ts';
import { agreementOf, findAgreement } from '../agreements/find-agreement.ts';
import { type Context, stamp } from '../context.ts';
import { enterFacts } from '../journal/enter-facts.ts';
import { tell } from '../notices/tell.ts';
import { Refusal } from '../refusal.ts';
import { otherParty } from './find-offer.ts';
import { effectiveDateProblems, lastDeliveryProblems } from './propose-amendment.ts';
import { closingFact, signingFact } from './signing-fact.ts';

export interface BothSigned {
  readonly offer: OfferRow;
  /** The version that both signed. */
  readonly signed: OfferVersionRow;
}

/** Returns the agreement's id. Refuses `delivered-already` where loads came in the meantime that forbid it. */
export async function takeEffect(tx: Transaction, context: Context, both: BothSigned): Promise<string> {
  switch (both.offer.purpose) {
    case 'agreement':
      return await beginAgreement(tx, context, both);
    case 'amendment':
      return await amend(tx, context, both);
    case 'closing':
      return await close(tx, context, both);
  }
}

/** One moment for all that follows from a signature. */
function recordedNow(context: Context): Moment {
  return { recordedAt: stamp(context), recordedBy: context.caller.personId };
}

interface Moment {
  readonly recordedAt: string;
  readonly recordedBy: string;
}

async function beginAgreement(
  tx: Transaction,
  context: Context,
  { offer, signed }: BothSigned,
): Promise<string> {
  const [agreementId, versionId] = [context.newId(), context.newId()];
  await lockAgreement(tx, agreementId);
  const { id: number } = agreementOf(signed.document);
  const recorded = recordedNow(context);
  const { sellerId, buyerId } = offer;
  const { document, fingerprint } = signed;
  await insertAgreement(tx, {
    id: agreementId,
    number,
    sellerId,
    buyerId,
    versionId,
    document,
    fingerprint,
    ...recorded,
  });
  const fact = { number, seller: sellerId, buyer: buyerId, version: '1', fingerprint };
  const begun: Entering = { kind: 'agreement', fact, subjectId: versionId, postings: [] };
  await enterSigned(tx, context, {
    agreementId,
    versionId,
    effectiveFrom: null,
    begun,
    both: { offer, signed },
    recorded,
  });
  await tellOther(tx, context, { offer, kind: 'agreement-signed', agreementId });
  return agreementId;
}

async function amend(tx: Transaction, context: Context, { offer, signed }: BothSigned): Promise<string> {
  const agreementId = offer.agreementId ?? '';
  const { row } = await findAgreement(tx, agreementId);
  const effectiveFrom = signed.effectiveFrom ?? '';
  refuseDelivered(await effectiveDateProblems(tx, { agreementId, effectiveFrom }));
  const versionId = context.newId();
  const recorded = recordedNow(context);
  const version = row.version + 1;
  const { document, fingerprint } = signed;
  await insertVersion(tx, { agreementId, versionId, version, document, fingerprint, ...recorded });
  const fact = {
    number: row.number,
    seller: row.sellerId,
    buyer: row.buyerId,
    version: String(version),
    fingerprint,
  };
  const begun: Entering = { kind: 'agreement', fact, subjectId: versionId, postings: [] };
  await enterSigned(tx, context, {
    agreementId,
    versionId,
    effectiveFrom,
    begun,
    both: { offer, signed },
    recorded,
  });
  await tellOther(tx, context, { offer, kind: 'amendment-signed', agreementId });
  return agreementId;
}

interface SignedVersion {
  readonly agreementId: string;
  readonly versionId: string;
  readonly effectiveFrom: string | null;
  /** The version's own entry. */
  readonly begun: Entering;
  readonly both: BothSigned;
  readonly recorded: Moment;
}

async function enterSigned(tx: Transaction, context: Context, version: SignedVersion): Promise<void> {
  const { agreementId, versionId, effectiveFrom, begun, both, recorded } = version;
  const id = context.newId();
  await insertSigning(tx, {
    agreementId,
    id,
    versionId,
    sellerId: both.offer.sellerId,
    offerId: both.offer.id,
    offerVersion: both.signed.version,
    effectiveFrom,
    ...recorded,
  });
  // As the database wrote it: with the number that it gave.
  const written = (await readSignings(tx, agreementId)).find((row) => row.id === id);
  if (!written) throw new Error('A signing that was written is not there');
  const signing: Entering = { kind: 'signing', fact: signingFact(written), subjectId: id, postings: [] };
  await enterFacts(tx, [begun, signing], { agreementId, ...recorded });
}

async function close(tx: Transaction, context: Context, { offer, signed }: BothSigned): Promise<string> {
  const agreementId = offer.agreementId ?? '';
  const { closing } = checkClosing(JSON.parse(signed.document));
  if (!closing) throw new Error('A closing that was sent no longer reads as one');
  refuseDelivered(await lastDeliveryProblems(tx, { agreementId, lastDelivery: closing.lastDelivery }));
  const recorded = recordedNow(context);
  const id = context.newId();
  await insertClosing(tx, {
    agreementId,
    id,
    lastDeliveryOn: closing.lastDelivery,
    offerId: offer.id,
    offerVersion: signed.version,
    ...recorded,
  });
  const written = await readClosing(tx, agreementId);
  if (!written) throw new Error('A closing that was written is not there');
  const entering: Entering = { kind: 'closing', fact: closingFact(written), subjectId: id, postings: [] };
  await enterFacts(tx, [entering], { agreementId, ...recorded });
  await tellOther(tx, context, { offer, kind: 'agreement-closed', agreementId });
  return agreementId;
}

function refuseDelivered(problems: readonly { readonly message: string }[]): void {
  const [problem] = problems;
  if (!problem) return;
  throw new Refusal(
    'delivered-already',
    `Loads came in since this was proposed: its date ${problem.message}. Send a new version with another date.`,
  );
}

interface ToOther {
  readonly offer: OfferRow;
  readonly kind: NoticeKind;
  readonly agreementId: string;
}

/** The one who signed first learns that the other has, too. */
async function tellOther(
  tx: Transaction,
  context: Context,
  { offer, kind, agreementId }: ToOther,
): Promise<void> {
  await tell(tx, context, [{ partyId: otherParty(offer, context), kind, subjectId: agreementId }]);
}
