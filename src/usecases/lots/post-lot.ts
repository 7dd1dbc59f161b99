/**
 * Posts a lot for everyone who is signed in or for invited parties alone, shows an extract of it to anybody if the seller
 * wishes, and takes it back.
 */
import { zoneCalendar } from '../../domain/dates/instant.ts';
import { type LotDocument, PUBLIC_PARTS, type PublicPart } from '../../domain/lots/lot-document.ts';
import { publicExtract } from '../../domain/lots/public-extract.ts';
import { canonicalText } from '../../journal/fingerprint.ts';
import type { Transaction } from '../../store/open-store.ts';
import { type Audience, insertLotVersion } from '../../store/rows/lot-rows.ts';
import { insertEndings, lockLot, readOffers } from '../../store/rows/offer-rows.ts';
import { type Context, permit, stamp } from '../context.ts';
import { doOnce } from '../do-once.ts';
import { tell } from '../notices/tell.ts';
import { partyName } from '../people/party-name.ts';
import { badInput } from '../read-input-rows.ts';
import { findOwnLot, lotOf, refuseSold } from './find-lot.ts';

export interface LotToPost {
  readonly lotId: string;
  /** "everyone" or "invited". */
  readonly audience: string;
  /** What anybody may see without signing in; undefined for nothing at all. */
  readonly publicParts?: readonly string[];
  readonly key?: string;
}

const DAY_MS = 86_400_000;

/**
 * Posts the lot as it stands, until the end of its last day. Refuses `not-allowed`, `bad-input` (also where its last day
 * is over), `not-found`, `not-yours`, `lot-closed` for a lot that is sold.
 */
export async function postLot(
  context: Context,
  { lotId, audience, publicParts, key }: LotToPost,
): Promise<{ readonly posted: true }> {
  permit(context, 'keep-lot');
  const input = { audience, publicParts: publicParts ?? null };
  return await doOnce(context, { verb: 'post-lot', subject: lotId, key, input }, async (tx) => {
    await lockLot(tx, lotId);
    const row = await findOwnLot(tx, context, lotId);
    refuseSold(row);
    const lot = lotOf(row.document);
    const [to, parts] = [readAudience(audience), readParts(publicParts)];
    const openUntil = endOfDay(lot);
    if (openUntil <= context.now()) {
      throw badInput([{ column: 'until', message: `is over (${lot.until}); give the lot a later last day` }]);
    }
    if (to === 'invited' && parts) {
      const message = 'goes with a lot for everyone; one for invited parties is shown to nobody else';
      throw badInput([{ column: 'public', message }]);
    }
    await tx.lot.update({
      where: { id: lotId },
      data: { state: 'posted', audience: to, openUntil: new Date(openUntil) },
      select: { id: true },
    });
    await insertLotVersion(tx, {
      lotId,
      version: row.version + 1,
      document: row.document,
      isShown: true,
      recordedAt: stamp(context),
      recordedBy: context.caller.personId,
    });
    await tx.publicListing.deleteMany({ where: { lotId } });
    if (parts) await list(tx, context, { lotId, lot, parts });
    return { posted: true };
  });
}

/** The instant at which a lot's last day ends where it lies. */
export function endOfDay({ until, timeZone }: Pick<LotDocument, 'until' | 'timeZone'>): number {
  const { dateAt } = zoneCalendar(timeZone);
  // Days have 23 to 25 hours: the end lies within 14 hours before and 38 after midnight in UTC.
  const [from, to] = [
    Date.parse(`${until}T00:00:00Z`) - 14 * HOUR,
    Date.parse(`${until}T00:00:00Z`) + 38 * HOUR,
  ];
  for (let instant = from; instant <= to; instant += HOUR / 4) if (dateAt(instant) > until) return instant;
  return to;
}
const HOUR = DAY_MS / 24;

function readAudience(audience: string): Audience {
  if (audience === 'everyone' || audience === 'invited') return audience;
  throw badInput([{ column: 'audience', message: 'must be everyone or invited' }]);
}

function readParts(parts: readonly string[] | undefined): readonly PublicPart[] | undefined {
  const known = parts?.map((part) => PUBLIC_PARTS.find((name) => name === part));
  if (known?.includes(undefined)) {
    throw badInput([{ column: 'public', message: `must be some of ${PUBLIC_PARTS.join(', ')}` }]);
  }
  return known?.flatMap((part) => part ?? []);
}

interface Listing {
  readonly lotId: string;
  readonly lot: LotDocument;
  readonly parts: readonly PublicPart[];
}

async function list(tx: Transaction, context: Context, { lotId, lot, parts }: Listing): Promise<void> {
  const seller = await partyName(tx, context.caller.partyId);
  await tx.publicListing.create({
    data: {
      lotId,
      document: canonicalText(publicExtract(lot, { seller, parts })),
      openUntil: new Date(endOfDay(lot)),
      postedAt: new Date(context.now()),
    },
    select: { lotId: true },
  });
}

/** A posted lot that was changed shows what it says now, in public too, until the end of its last day. */
export async function refreshListing(
  tx: Transaction,
  context: Context,
  { lotId, lot }: Omit<Listing, 'parts'>,
): Promise<void> {
  await tx.lot.update({
    where: { id: lotId },
    data: { openUntil: new Date(endOfDay(lot)) },
    select: { id: true },
  });
  const before = await tx.publicListing.findUnique({ where: { lotId } });
  if (!before) return;
  const { parts } = JSON.parse(before.document) as { readonly parts: readonly PublicPart[] };
  await tx.publicListing.delete({ where: { lotId } });
  await list(tx, context, { lotId, lot, parts });
}

/**
 * Takes a lot back: open offers on it end, and their buyers are told. It may be posted again. Refuses `not-allowed`,
 * `not-found`, `not-yours`, `lot-closed` for a lot that is sold.
 */
export async function withdrawLot(
  context: Context,
  { lotId, key }: { readonly lotId: string; readonly key?: string },
): Promise<{ readonly endedOffers: number }> {
  permit(context, 'keep-lot');
  return await doOnce(context, { verb: 'withdraw-lot', subject: lotId, key, input: {} }, async (tx) => {
    await lockLot(tx, lotId);
    const row = await findOwnLot(tx, context, lotId);
    refuseSold(row);
    const open = (await readOffers(tx)).filter((offer) => offer.lotId === lotId && offer.ending === null);
    await insertEndings(
      tx,
      open.map(({ id }) => id),
      { ending: 'lot-withdrawn', byPartyId: context.caller.partyId, endedAt: stamp(context) },
    );
    await tell(
      tx,
      context,
      open.map(({ id, buyerId }) => ({ partyId: buyerId, kind: 'lot-withdrawn', subjectId: id })),
    );
    await tx.lot.update({ where: { id: lotId }, data: { state: 'withdrawn' }, select: { id: true } });
    await tx.publicListing.deleteMany({ where: { lotId } });
    return { endedOffers: open.length };
  });
}
