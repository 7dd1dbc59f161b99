/**
 * A link by which another party comes: whether it still works, and what it leads to.
 */
import { type Subject, subjectInWords, subjectKind } from '../../domain/advice/subject.ts';
import type { Transaction } from '../../store/open-store.ts';
import { seesLot } from '../../store/rows/advice-rows.ts';
import { readAgreement } from '../../store/rows/agreement-rows.ts';
import { type LotState, readLot } from '../../store/rows/lot-rows.ts';
import { readOffer } from '../../store/rows/offer-rows.ts';
import { readShareLink, type ShareLinkRow } from '../../store/rows/share-rows.ts';
import type { Tools } from '../context.ts';
import { secretHash } from '../people/secret-link.ts';
import { Refusal } from '../refusal.ts';

/** What a link leads to, as its giver sees it. */
export interface SharedThing {
  readonly subject: Subject;
  /** "lot 3", "the offer on lot 3", "agreement L3-A7F2". */
  readonly words: string;
  /** Parties that take part in it by themselves. */
  readonly partyIds: readonly string[];
  /** The lot that it is about, if it is about one. */
  readonly lotId: string | null;
  readonly lotState: LotState | null;
  readonly sellerId: string;
}

export function linkVoid(): Refusal {
  return new Refusal('invitation-void', 'This link was used or is too old. Ask for a new one.');
}

/** At the door. Refuses `invitation-void` for a link that is unknown, used or too old. */
export async function findOpenLink(tx: Transaction, { now }: Tools, secret: string): Promise<ShareLinkRow> {
  const link = await readShareLink(tx, secretHash(secret));
  if (!link || link.isUsed || link.expiresAt <= now()) throw linkVoid();
  return link;
}

/** Refuses `invitation-void` where its giver takes no part in it any more. */
export async function findShared({ store }: Tools, link: ShareLinkRow): Promise<SharedThing> {
  const found = await store.forParty(link.partyId, (tx) => readShared(tx, link));
  if (!found) throw linkVoid();
  return { ...found, partyIds: [...found.partyIds, link.partyId] };
}

async function readShared(tx: Transaction, link: ShareLinkRow): Promise<SharedThing | undefined> {
  const { partyId, lotId, offerId, agreementId } = link;
  if (lotId !== null) {
    const lot = (await seesLot(tx, { partyId, lotId })) ? await readLot(tx, lotId) : undefined;
    return lot && thing({ subject: { lotId }, partyIds: [lot.sellerId] }, lot);
  }
  if (offerId !== null) {
    const offer = await readOffer(tx, offerId);
    if (!offer) return undefined;
    const of = offer.agreementId === null ? undefined : await readAgreement(tx, offer.agreementId);
    const lot = offer.lotId === null ? undefined : await readLot(tx, offer.lotId);
    const shared = { subject: { offerId }, partyIds: [offer.sellerId, offer.buyerId] };
    return thing(shared, { sellerId: offer.sellerId, ...lot, agreementNumber: of?.number });
  }
  const agreement = await readAgreement(tx, agreementId ?? '');
  if (!agreement) return undefined;
  const { id, sellerId, buyerId, number } = agreement;
  return thing(
    { subject: { agreementId: id }, partyIds: [sellerId, buyerId] },
    { sellerId, agreementNumber: number },
  );
}

interface Seen {
  readonly id?: string;
  readonly number?: number;
  readonly state?: LotState;
  readonly sellerId: string;
  readonly agreementNumber?: string | undefined;
}

function thing({ subject, partyIds }: Pick<SharedThing, 'subject' | 'partyIds'>, seen: Seen): SharedThing {
  const { id = null, number = null, state = null, sellerId, agreementNumber = null } = seen;
  const words = subjectInWords(subjectKind(subject), { lotNumber: number, agreementNumber });
  return { subject, words, partyIds, lotId: id, lotState: state, sellerId };
}
