/**
 * A seller, three buyers and a lot, for tests of bargaining. Everybody has a password.
 */
import type { Caller, Context, Tools } from '../../src/usecases/context.ts';
import { draftLot } from '../../src/usecases/lots/keep-lot.ts';
import { postLot } from '../../src/usecases/lots/post-lot.ts';
import { makeOffer } from '../../src/usecases/offers/make-offer.ts';
import { readOffer } from '../../src/usecases/offers/read-offer.ts';
import { signOffer } from '../../src/usecases/offers/sign-offer.ts';
import { hashPassword } from '../../src/usecases/people/password.ts';
import { workedExample } from '../oracle/worked-example.ts';
import { newParty } from '../store/test-record.ts';

export const PASSWORD = 'cob husk and shank';

const { id: _, seller: _s, buyer: _b, ...terms } = workedExample.agreement;
/** The worked example of the format, without its names. */
export const TERMS: Readonly<Record<string, unknown>> = terms;

export const LOT = {
  feed: 'whole-ear-corn',
  currency: 'USD',
  timeZone: 'America/Boise',
  wetTons: '1500',
  dryTons: '870',
  ton: 'short-ton',
  storage: 'standing',
  harvest: { from: '2026-09-10', to: '2026-10-05' },
  moisture: { from: '38', to: '45' },
  tests: [
    { on: '2026-08-30', laboratory: 'Fennel Ridge Laboratory', 'dry-matter': '58', starch: '56', ndf: '25' },
  ],
  region: 'Upper Teasel Valley',
  place: { latitude: '43.6', longitude: '-116.2' },
  hauledBy: 'seller',
  weighedBy: 'the buyer’s scale',
  until: '2026-12-20',
  asking: TERMS,
} as const;

let hash: string | undefined;

/** A party whose owner can sign. */
export async function newSigner(tools: Tools, name: string): Promise<Context> {
  const caller: Caller = await newParty(tools, name);
  hash ??= await hashPassword(PASSWORD);
  await tools.store.atDoor((tx) =>
    tx.person.update({ where: { id: caller.personId }, data: { passwordHash: hash ?? null } }),
  );
  return { ...tools, caller };
}

export async function postedLot(seller: Context, audience = 'everyone'): Promise<string> {
  const { lotId } = await draftLot(seller, { document: LOT, address: '4 Teasel Lane' });
  await postLot(seller, { lotId, audience });
  return lotId;
}

export async function offered(buyer: Context, lotId: string): Promise<string> {
  const { offerId } = await makeOffer(buyer, { lotId, document: TERMS, validDays: '7' });
  return offerId;
}

/** Signs the newest version as the owner of a party made by `newSigner`. */
export async function signNewest(context: Context, offerId: string, party: string) {
  const { newest } = await readOffer(context, { offerId });
  return await signOffer(context, {
    offerId,
    version: newest.version,
    fingerprint: newest.fingerprint,
    name: `${party} owner`,
    password: PASSWORD,
    address: 'test',
  });
}

/** Offers, and has both sides sign. Returns the agreement's id. */
export async function agreed(parties: {
  seller: [Context, string];
  buyer: [Context, string];
}): Promise<string> {
  const [seller, sellerName] = parties.seller;
  const [buyer, buyerName] = parties.buyer;
  const offerId = await offered(buyer, await postedLot(seller));
  await signNewest(buyer, offerId, buyerName);
  const { agreementId } = await signNewest(seller, offerId, sellerName);
  return agreementId ?? '';
}
