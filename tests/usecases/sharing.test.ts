/**
 * Links by which another party comes: what they tell, whom they let in, once, and what is refused.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readLot } from '../../src/store/rows/lot-rows.ts';
import type { Context } from '../../src/usecases/context.ts';
import { draftLot } from '../../src/usecases/lots/keep-lot.ts';
import { postLot, withdrawLot } from '../../src/usecases/lots/post-lot.ts';
import { readNotices } from '../../src/usecases/notices/read-notices.ts';
import { makeOffer } from '../../src/usecases/offers/make-offer.ts';
import { readOffer } from '../../src/usecases/offers/read-offer.ts';
import { signIn } from '../../src/usecases/people/sign-in.ts';
import type { RefusalCode } from '../../src/usecases/refusal.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { joinWithNewParty } from '../../src/usecases/sharing/join-with-new-party.ts';
import { readShare } from '../../src/usecases/sharing/read-share.ts';
import { readLotGuests, shareLot, shareLotWith } from '../../src/usecases/sharing/share-lot.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { agreed, LOT, newSigner, offered, PASSWORD, postedLot, TERMS } from './bargain.ts';

let record: TestRecord;
let seller: Context;
let dairy: Context;
let rival: Context;
let practice: Context;
const SELLER = 'Quillback Acres';

beforeAll(async () => {
  record = await openTestRecord();
  seller = await newSigner(record.tools, SELLER);
  dairy = await newSigner(record.tools, 'Tarn Hollow Dairy');
  rival = await newSigner(record.tools, 'Sorrel Bend Dairy');
  practice = await newSigner(record.tools, 'Row and Husk Advice');
});
afterAll(() => record.close());

async function refused(work: Promise<unknown>): Promise<RefusalCode> {
  return await work.then(
    () => {
      throw new Error('was not refused');
    },
    (error: { code: RefusalCode }) => error.code,
  );
}

const sees = async ({ store, caller }: Context, lotId: string) =>
  (await store.forParty(caller.partyId, (tx) => readLot(tx, lotId))) !== undefined;
const as = (context: Context, role: 'bookkeeper' | 'viewer'): Context => ({
  ...context,
  caller: { ...context.caller, role },
});
const news = async (context: Context) => (await readNotices(context)).unseen.map(({ words }) => words);

describe('a link to a lot', () => {
  test('lets one party in, tells no more than what it leads to, and its giver is told', async () => {
    const lotId = await postedLot(seller, 'invited');
    expect(await sees(dairy, lotId)).toBe(false);
    const { secret, expiresAt } = await shareLot(seller, { lotId });
    expect(expiresAt).toBeGreaterThan(record.tools.now());
    const view = await readShare(record.tools, { secret });
    expect(view).toEqual({ party: SELLER, purpose: 'lot-guest', words: expect.stringMatching(/^lot \d+$/) });
    expect(await acceptShare(dairy, { secret })).toEqual({
      purpose: 'lot-guest',
      subject: { lotId },
      adviceId: null,
    });
    expect(await sees(dairy, lotId)).toBe(true);
    expect(await sees(rival, lotId)).toBe(false);
    expect(await news(seller)).toContain('Tarn Hollow Dairy has come by your link and sees the lot.');
    expect(await refused(acceptShare(rival, { secret }))).toBe('invitation-void');
    expect(await refused(readShare(record.tools, { secret }))).toBe('invitation-void');
    expect((await makeOffer(dairy, { lotId, document: TERMS, validDays: '7' })).offerId).toBeTruthy();
  });

  test('is for one: two that come at once do not both come', async () => {
    const lotId = await postedLot(seller, 'invited');
    const { secret } = await shareLot(seller, { lotId });
    const came = await Promise.allSettled([acceptShare(dairy, { secret }), acceptShare(rival, { secret })]);
    expect(came.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    expect([await sees(dairy, lotId), await sees(rival, lotId)].filter(Boolean)).toHaveLength(1);
  });

  test('is void when it is unknown, too old, or its lot is sold or taken back', async () => {
    expect(await refused(readShare(record.tools, { secret: 'guessed' }))).toBe('invitation-void');
    const lotId = await postedLot(seller, 'invited');
    const { secret } = await shareLot(seller, { lotId });
    const later = { ...dairy, now: () => dairy.now() + 15 * 86_400_000 };
    expect(await refused(acceptShare(later, { secret }))).toBe('invitation-void');
    await withdrawLot(seller, { lotId });
    expect(await refused(shareLot(seller, { lotId }))).toBe('lot-closed');
    const { lotId: draft } = await draftLot(seller, { document: LOT });
    expect(await refused(shareLot(seller, { lotId: draft }))).toBe('lot-closed');
  });

  test('is given by an owner of its seller, and not taken by the seller itself or by a reader', async () => {
    const lotId = await postedLot(seller);
    expect(await refused(shareLot(as(seller, 'bookkeeper'), { lotId }))).toBe('not-allowed');
    expect(await refused(shareLot(dairy, { lotId }))).toBe('not-yours');
    expect(await refused(shareLot(seller, { lotId: 'none' }))).toBe('not-found');
    const { secret } = await shareLot(seller, { lotId });
    expect(await refused(acceptShare(seller, { secret }))).toBe('not-yours');
    expect(await refused(acceptShare(as(dairy, 'viewer'), { secret }))).toBe('not-allowed');
    // None of them used it up.
    await acceptShare(dairy, { secret });
    // A party that is there already leaves the next link to another.
    const next = await shareLot(seller, { lotId });
    await acceptShare(dairy, next);
    await acceptShare(rival, next);
    expect((await readLotGuests(seller, { lotId })).guests).toEqual([
      'Sorrel Bend Dairy',
      'Tarn Hollow Dairy',
    ]);
  });

  test('is not needed by a partner, and no way to a party that is none', async () => {
    const lotId = await postedLot(seller, 'invited');
    await offered(rival, await postedLot(seller));
    const partyId = rival.caller.partyId;
    const { partners } = await readLotGuests(seller, { lotId });
    expect(partners.map(({ name }) => name)).toContain('Sorrel Bend Dairy');
    expect(partners.map(({ name }) => name)).not.toContain('Row and Husk Advice');
    expect(await refused(shareLotWith(seller, { lotId, partyId: practice.caller.partyId }))).toBe(
      'not-found',
    );
    expect(await refused(shareLotWith(rival, { lotId, partyId }))).toBe('not-found');
    expect(await refused(shareLotWith(as(seller, 'viewer'), { lotId, partyId }))).toBe('not-allowed');
    expect(await shareLotWith(as(seller, 'bookkeeper'), { lotId, partyId })).toEqual({
      name: 'Sorrel Bend Dairy',
    });
    expect(await sees(rival, lotId)).toBe(true);
    expect(await news(rival)).toEqual([`${SELLER} shows you a lot.`]);
    // Twice is once.
    await shareLotWith(seller, { lotId, partyId });
    expect(await news(rival)).toHaveLength(1);
  });
});

describe('a link for an adviser', () => {
  test('leads to one offer and to nothing beside it', async () => {
    const lotId = await postedLot(seller);
    const [own, other] = [await offered(dairy, lotId), await offered(rival, lotId)];
    expect(await refused(askAdviser(as(dairy, 'bookkeeper'), { offerId: own }))).toBe('not-allowed');
    expect(await refused(askAdviser(rival, { offerId: own }))).toBe('not-found');
    const link = await askAdviser(dairy, { offerId: own });
    expect(await readShare(record.tools, link)).toEqual({
      party: 'Tarn Hollow Dairy',
      purpose: 'adviser',
      words: expect.stringMatching(/^the offer on lot \d+$/),
    });
    expect(await refused(acceptShare(seller, link))).toBe('not-yours');
    // A rival must not come in as an adviser, not even by the link itself.
    expect(await refused(acceptShare(rival, link))).toBe('not-yours');
    const { adviceId } = await acceptShare(practice, link);
    expect(adviceId).toMatch(/^[0-9a-f-]{36}$/);
    expect(await readOffer(practice, { offerId: own })).toMatchObject({ side: 'adviser', turn: 'theirs' });
    expect(await refused(readOffer(practice, { offerId: other }))).toBe('not-found');
    expect(await news(dairy)).toContain('Row and Husk Advice has come by your link and advises you.');
    // Who advises does not ask others in.
    expect(await refused(askAdviser(practice, { offerId: own }))).toBe('not-yours');
    // The other way round, who advises does not bid.
    expect(await refused(makeOffer(practice, { lotId, document: TERMS, validDays: '5' }))).toBe('not-yours');
  });

  test('leads to an agreement, or to a lot that its seller still drafts', async () => {
    const agreementId = await agreed({ seller: [seller, SELLER], buyer: [dairy, 'Tarn Hollow Dairy'] });
    const toAgreement = await askAdviser(seller, { agreementId });
    expect((await readShare(record.tools, toAgreement)).words).toMatch(/^agreement L\d+-[0-9A-F]{4}$/);
    expect(await refused(acceptShare(dairy, toAgreement))).toBe('not-yours');
    await acceptShare(practice, toAgreement);
    const { lotId } = await draftLot(seller, { document: LOT });
    await acceptShare(practice, await askAdviser(seller, { lotId }));
    expect(await sees(practice, lotId)).toBe(true);
    expect(await sees(dairy, lotId)).toBe(false);
    expect(await refused(askAdviser(practice, { lotId }))).toBe('not-yours');
  });

  test('is void once its giver no longer sees the lot', async () => {
    const lotId = await postedLot(seller);
    const link = await askAdviser(dairy, { lotId });
    await withdrawLot(seller, { lotId });
    expect(await refused(acceptShare(practice, link))).toBe('invitation-void');
  });

  test('is over with a lot that is sold', async () => {
    const lotId = await postedLot(seller);
    const link = await shareLot(seller, { lotId });
    await postLot(seller, { lotId, audience: 'everyone' });
    const { signNewest } = await import('./bargain.ts');
    const offerId = await offered(dairy, lotId);
    await signNewest(dairy, offerId, 'Tarn Hollow Dairy');
    await signNewest(seller, offerId, SELLER);
    expect(await refused(acceptShare(rival, link))).toBe('lot-closed');
  });
});

describe('a party that was not here before', () => {
  const NEW = {
    party: 'Fallow Gate Dairy',
    name: 'Odo',
    email: 'odo@example.org',
    password: 'silage under the tyres',
    address: '192.0.2.7',
  };

  test('comes by a link with its first owner', async () => {
    const lotId = await postedLot(seller, 'invited');
    const { secret } = await shareLot(seller, { lotId });
    expect(await refused(joinWithNewParty(record.tools, { ...NEW, secret, password: 'short' }))).toBe(
      'bad-input',
    );
    expect(await refused(joinWithNewParty(record.tools, { ...NEW, secret, party: ' ' }))).toBe('bad-input');
    const come = await joinWithNewParty(record.tools, { ...NEW, secret });
    expect(come).toMatchObject({ purpose: 'lot-guest', subject: { lotId }, adviceId: null });
    const { personId, partyId } = come;
    const odo: Context = { ...record.tools, caller: { personId, partyId, role: 'owner' } };
    expect(await sees(odo, lotId)).toBe(true);
    await signIn(record.tools, { ...NEW, agent: 'test' });
    expect(await refused(joinWithNewParty(record.tools, { ...NEW, secret }))).toBe('invitation-void');
    expect(await news(seller)).toContain('Fallow Gate Dairy has come by your link and sees the lot.');
  });

  test('is of somebody who is known by their own password only', async () => {
    const lotId = await postedLot(seller, 'invited');
    const { secret } = await shareLot(seller, { lotId });
    const { email } = await record.tools.store.atDoor((tx) =>
      tx.person.findUniqueOrThrow({ where: { id: dairy.caller.personId } }),
    );
    const known = { ...NEW, secret, email, party: 'Second Dairy' };
    expect(await refused(joinWithNewParty(record.tools, known))).toBe('wrong-sign-in');
    const come = await joinWithNewParty(record.tools, { ...known, password: PASSWORD });
    expect(come.personId).toBe(dairy.caller.personId);
  });
});
