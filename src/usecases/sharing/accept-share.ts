/**
 * Comes by a link: as a party that is here already, which then sees the lot, or advises whoever gave the link. The link
 * is used up, and its giver is told.
 */
import { type Subject, subjectId } from '../../domain/advice/subject.ts';
import type { Transaction } from '../../store/open-store.ts';
import { readAllAdvice } from '../../store/rows/advice-rows.ts';
import { readOffers } from '../../store/rows/offer-rows.ts';
import {
  insertAdvice,
  insertGuest,
  markLinkUsed,
  type ShareLinkRow,
  type SharePurpose,
} from '../../store/rows/share-rows.ts';
import { type Context, permit, stamp, type Tools } from '../context.ts';
import { tell } from '../notices/tell.ts';
import { secretHash } from '../people/secret-link.ts';
import { Refusal } from '../refusal.ts';
import { findOpenLink, findShared, type SharedThing } from './find-share.ts';

/** Where somebody who came by a link goes on. */
export interface Come {
  readonly purpose: SharePurpose;
  readonly subject: Subject;
  /** For an adviser. */
  readonly adviceId: string | null;
}

/**
 * Refuses `not-allowed`, `invitation-void`, `lot-closed` for a lot that is sold, and `not-yours` where the caller's party
 * takes part in it itself. A party that is there already comes again, and the link stays good for another.
 */
export async function acceptShare(context: Context, { secret }: { readonly secret: string }): Promise<Come> {
  const { store, caller, newId } = context;
  const { link, shared } = await findLinked(context, secret);
  permit(context, link.purpose === 'adviser' ? 'advise' : 'make-offer');
  refuseOwn(shared, caller.partyId);
  const before = await store.forParty(caller.partyId, (tx) => lookAround(tx, { link, shared }));
  if (before.bids) {
    throw new Refusal(
      'not-yours',
      'You have an offer on this lot yourself. End it first: who bids on a lot does not advise on it.',
    );
  }
  const come = { purpose: link.purpose, subject: shared.subject };
  if (before.isThere) return { ...come, adviceId: before.adviceId };
  const adviceId = await store.atDoor((tx) =>
    comeByLink(tx, context, { secret, shared, partyId: caller.partyId }),
  );
  await store.forParty(caller.partyId, (tx) =>
    tx.audit.create({
      data: {
        id: newId(),
        partyId: caller.partyId,
        personId: caller.personId,
        verb: 'accept-share',
        subject: subjectId(shared.subject),
      },
    }),
  );
  return { ...come, adviceId };
}

export interface Linked {
  readonly link: ShareLinkRow;
  readonly shared: SharedThing;
}

/** The link of a secret with what it leads to. Refuses `invitation-void`, `lot-closed`. */
export async function findLinked(tools: Tools, secret: string): Promise<Linked> {
  const link = await tools.store.atDoor((tx) => findOpenLink(tx, tools, secret));
  const shared = await findShared(tools, link);
  if (shared.lotState === 'sold' && !('agreementId' in shared.subject)) {
    throw new Refusal('lot-closed', 'What this link leads to is over: the lot is sold.');
  }
  return { link, shared };
}

function refuseOwn({ partyIds, words }: SharedThing, partyId: string): void {
  if (!partyIds.includes(partyId)) return;
  throw new Refusal(
    'not-yours',
    `Your party takes part in ${words} itself. Hand the link to whom it is meant for.`,
  );
}

interface Around {
  readonly isThere: boolean;
  readonly adviceId: string | null;
  /** Whether the party has an open offer on what it would advise on. */
  readonly bids: boolean;
}

async function lookAround(tx: Transaction, { link, shared }: Linked): Promise<Around> {
  if (link.purpose === 'lot-guest') {
    const isThere = (await tx.lotGuest.count({ where: { lotId: shared.lotId ?? '' } })) > 0;
    return { isThere, adviceId: null, bids: false };
  }
  const bids = (await readOffers(tx)).some(
    ({ lotId, ending }) => lotId !== null && lotId === shared.lotId && ending === null,
  );
  const advice = (await readAllAdvice(tx)).find(
    ({ partyId, lotId, offerId, agreementId, endedAt }) =>
      endedAt === null &&
      partyId === link.partyId &&
      (lotId ?? offerId ?? agreementId) === subjectId(shared.subject),
  );
  return { isThere: advice !== undefined, adviceId: advice?.id ?? null, bids: bids && !advice };
}

export interface LinkToUse {
  readonly secret: string;
  readonly shared: SharedThing;
  /** Who comes. */
  readonly partyId: string;
}

/** At the door: lets the party in, uses the link up, tells its giver. Returns the id of advice. Refuses `invitation-void`. */
export async function comeByLink(
  tx: Transaction,
  tools: Tools,
  { secret, shared, partyId }: LinkToUse,
): Promise<string | null> {
  // Two that come by one link at once must not both come.
  await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${secretHash(secret)}, 2))::text`;
  const link = await findOpenLink(tx, tools, secret);
  const at = stamp(tools);
  const { id, lotId, offerId, agreementId, createdBy } = link;
  await markLinkUsed(tx, { id, usedAt: at, partyId });
  if (link.purpose === 'lot-guest') {
    const { sellerId } = shared;
    await insertGuest(tx, { lotId: lotId ?? '', partyId, sellerId, invitedAt: at, invitedBy: createdBy });
    await tell(tx, tools, [{ partyId: link.partyId, kind: 'share-accepted', subjectId: lotId ?? '', at }]);
    return null;
  }
  const adviceId = tools.newId();
  const about = { lotId, offerId, agreementId };
  await insertAdvice(tx, { id: adviceId, partyId: link.partyId, adviserId: partyId, ...about, since: at });
  await tell(tx, tools, [{ partyId: link.partyId, kind: 'advice-accepted', subjectId: adviceId, at }]);
  return adviceId;
}
