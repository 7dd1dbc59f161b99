/**
 * Bargaining from a posted lot to a signed agreement: what each verb does, what it refuses, and that two who act at once
 * make one agreement.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ROLES } from '../../src/domain/parties/permissions.ts';
import type { Context } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { draftLot } from '../../src/usecases/lots/keep-lot.ts';
import { postLot, withdrawLot } from '../../src/usecases/lots/post-lot.ts';
import { counterOffer } from '../../src/usecases/offers/counter-offer.ts';
import { endOffer } from '../../src/usecases/offers/end-offer.ts';
import { makeOffer } from '../../src/usecases/offers/make-offer.ts';
import { proposeAmendment, proposeClosing } from '../../src/usecases/offers/propose-amendment.ts';
import { readOffer } from '../../src/usecases/offers/read-offer.ts';
import { signOffer } from '../../src/usecases/offers/sign-offer.ts';
import { Refusal } from '../../src/usecases/refusal.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { verifyRecord } from '../../src/usecases/verify/verify-record.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { agreed, LOT, newSigner, offered, PASSWORD, postedLot, signNewest, TERMS } from './bargain.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let seller: Context;
let buyers: readonly [Context, Context, Context];
const NAMES = ['Tarn Hollow Dairy', 'Lanternfield Dairy', 'Sorrel Bend Dairy'] as const;
const SELLER = 'Quillback Acres';

beforeAll(async () => {
  record = await openTestRecord();
  seller = await newSigner(record.tools, SELLER);
  buyers = [
    await newSigner(record.tools, NAMES[0]),
    await newSigner(record.tools, NAMES[1]),
    await newSigner(record.tools, NAMES[2]),
  ];
});
afterAll(() => record.close());

describe('an offer', () => {
  test('goes to and fro in versions, and both sign one', async () => {
    const lotId = await postedLot(seller);
    const offerId = await offered(buyers[0], lotId);
    expect(await refused(makeOffer(buyers[0], { lotId, document: TERMS, validDays: '7' }))).toBe(
      'offer-open',
    );
    expect(await refused(makeOffer(seller, { lotId, document: TERMS, validDays: '7' }))).toBe('not-yours');
    const dearer = {
      ...TERMS,
      price: [{ term: 'flat', label: 'All', rate: '60', per: 'short-ton', weight: 'as-fed' }],
    };
    const counter = { offerId, baseVersion: 1, document: dearer, validDays: '5', message: 'Fuel is dear.' };
    expect(await counterOffer(seller, counter)).toEqual({ version: 2 });
    expect(await refused(counterOffer(buyers[0], counter))).toBe('offer-moved');
    const view = await readOffer(buyers[0], { offerId });
    expect(view).toMatchObject({ side: 'buyer', state: 'open', turn: 'yours' });
    expect(view.versions.map(({ by, message }) => [by, message])).toEqual([
      ['buyer', null],
      ['seller', 'Fuel is dear.'],
    ]);
    expect(view.newest.document).toMatchObject({
      seller: SELLER,
      buyer: NAMES[0],
      id: view.versions[0]?.document['id'],
    });

    const sign = {
      offerId,
      version: 2,
      fingerprint: view.newest.fingerprint,
      name: `${NAMES[0]} owner`,
      address: 'test',
    };
    expect(await refused(signOffer(buyers[0], { ...sign, password: 'something else entirely' }))).toBe(
      'wrong-sign-in',
    );
    expect(await refused(signOffer(buyers[0], { ...sign, name: 'Somebody Else', password: PASSWORD }))).toBe(
      'bad-input',
    );
    expect(await refused(signOffer(buyers[0], { ...sign, version: 1, password: PASSWORD }))).toBe(
      'offer-moved',
    );
    expect(
      await refused(signOffer(buyers[0], { ...sign, fingerprint: '0'.repeat(64), password: PASSWORD })),
    ).toBe('offer-moved');
    const bookkeeper = { ...buyers[0], caller: { ...buyers[0].caller, role: 'bookkeeper' as const } };
    expect(await refused(signOffer(bookkeeper, { ...sign, password: PASSWORD }))).toBe('not-allowed');
    expect(await signOffer(buyers[0], { ...sign, password: PASSWORD })).toEqual({ agreementId: null });
    // Signing a second time changes nothing.
    expect(await signOffer(buyers[0], { ...sign, password: PASSWORD })).toEqual({ agreementId: null });
    const { agreementId } = await signNewest(seller, offerId, SELLER);
    expect(agreementId).toMatch(/^[0-9a-f-]{36}$/);
    expect(await refused(endOffer(seller, { offerId }))).toBe('offer-over');
    expect(await readOffer(seller, { offerId })).toMatchObject({ state: 'agreed', becameId: agreementId });
    expect(await refused(postLot(seller, { lotId, audience: 'everyone' }))).toBe('lot-closed');
    expect(await refused(makeOffer(buyers[1], { lotId, document: TERMS, validDays: '7' }))).toBe('not-found');
    expect((await verifyRecord(record.tools)).faults).toEqual([]);
  });

  test('of one buyer is nothing to another', async () => {
    const lotId = await postedLot(seller);
    const offerId = await offered(buyers[0], lotId);
    for (const rival of [buyers[1], buyers[2]]) {
      expect(await refused(readOffer(rival, { offerId }))).toBe('not-found');
      expect(await refused(endOffer(rival, { offerId }))).toBe('not-found');
    }
  });

  test('is withdrawn by who sent it and declined by the other side', async () => {
    const lotId = await postedLot(seller);
    const first = await offered(buyers[0], lotId);
    expect(await endOffer(buyers[0], { offerId: first })).toEqual({ ending: 'withdrawn' });
    const second = await offered(buyers[0], lotId);
    expect(await endOffer(seller, { offerId: second })).toEqual({ ending: 'declined' });
    expect(
      await refused(
        counterOffer(seller, { offerId: second, baseVersion: 1, document: TERMS, validDays: '3' }),
      ),
    ).toBe('offer-over');
    const third = await offered(buyers[0], lotId);
    expect(await withdrawLot(seller, { lotId })).toEqual({ endedOffers: 1 });
    expect(await readOffer(buyers[0], { offerId: third })).toMatchObject({ state: 'lot-withdrawn' });
    expect(await refused(makeOffer(buyers[0], { lotId, document: TERMS, validDays: '7' }))).toBe(
      'lot-closed',
    );
  });

  test('lapses when its time is over, and a new version opens it again', async () => {
    const lotId = await postedLot(seller);
    const offerId = await offered(buyers[0], lotId);
    const later = { ...seller, now: () => seller.now() + 8 * 86_400_000 };
    expect(await readOffer(later, { offerId })).toMatchObject({ state: 'lapsed' });
    const { newest } = await readOffer(seller, { offerId });
    const sign = {
      offerId,
      version: 1,
      fingerprint: newest.fingerprint,
      name: `${SELLER} owner`,
      password: PASSWORD,
      address: 't',
    };
    expect(await refused(signOffer(later, sign))).toBe('offer-lapsed');
    await counterOffer(later, { offerId, baseVersion: 1, document: TERMS, validDays: '30' });
    expect(await readOffer(later, { offerId })).toMatchObject({ state: 'open', turn: 'theirs' });
  });

  test('names every fault of its terms with its path', async () => {
    const lotId = await postedLot(seller);
    const document = { ...TERMS, currency: 'XXX', conditions: { volume: { amount: 'much' } }, price: [] };
    const error = await makeOffer(buyers[0], {
      lotId,
      document,
      validDays: '0',
      message: 'x'.repeat(1_001),
    }).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(Refusal);
    const columns = (error as Refusal).problems.map(({ column }) => column);
    expect(columns).toEqual(expect.arrayContaining(['$.currency', '$.price', 'message', 'validDays']));
    expect(columns.some((column) => column?.startsWith('$.conditions.volume'))).toBe(true);
  });
});

describe('who acts at once', () => {
  test('two buyers sign what the seller has signed: one agreement, and the other is told neutrally', async () => {
    const lotId = await postedLot(seller);
    const offers = [
      await offered(buyers[0], lotId),
      await offered(buyers[1], lotId),
      await offered(buyers[2], lotId),
    ];
    await signNewest(seller, offers[0] ?? '', SELLER);
    await signNewest(seller, offers[1] ?? '', SELLER);
    const signed = await Promise.allSettled([
      signNewest(buyers[0], offers[0] ?? '', NAMES[0]),
      signNewest(buyers[1], offers[1] ?? '', NAMES[1]),
    ]);
    const won = signed.filter(({ status }) => status === 'fulfilled');
    expect(won).toHaveLength(1);
    const lost = signed.flatMap((answer) => (answer.status === 'rejected' ? [answer.reason as Refusal] : []));
    expect(lost.map(({ code }) => code)).toEqual(['offer-over']);
    expect(lost[0]?.message).toMatch(/went to another buyer/);
    const states = await Promise.all(
      offers.map(async (offerId, index) => (await readOffer(buyers[index] ?? seller, { offerId })).state),
    );
    expect(states.filter((state) => state === 'agreed')).toHaveLength(1);
    expect(states.filter((state) => state === 'lot-sold')).toHaveLength(2);
    const superuser = await record.superuser();
    const { rows } = await superuser.query('SELECT count(*)::int AS n FROM signing WHERE lot_id = $1', [
      lotId,
    ]);
    const told = await superuser.query(
      `SELECT count(*)::int AS n FROM notice WHERE kind = 'lot-sold' AND subject_id = ANY($1)`,
      [offers],
    );
    await superuser.end();
    expect(rows).toEqual([{ n: 1 }]);
    expect(told.rows).toEqual([{ n: 2 }]);
  });

  test('two owners of the seller sign the same version at once: one agreement', async () => {
    const lotId = await postedLot(seller);
    const offerId = await offered(buyers[0], lotId);
    await signNewest(buyers[0], offerId, NAMES[0]);
    const signed = await Promise.allSettled([
      signNewest(seller, offerId, SELLER),
      signNewest(seller, offerId, SELLER),
      signNewest(seller, offerId, SELLER),
    ]);
    const made = signed.flatMap((answer) =>
      answer.status === 'fulfilled' ? (answer.value.agreementId ?? []) : [],
    );
    expect(made).toHaveLength(1);
  });

  test('agreements of a seller are numbered without a gap, whoever is slower', async () => {
    const grower = await newSigner(record.tools, 'Oddmeadow Farm');
    const ready: [Context, string, string][] = [];
    for (const [index, buyer] of buyers.entries()) {
      const offerId = await offered(buyer, await postedLot(grower));
      await signNewest(grower, offerId, 'Oddmeadow Farm');
      ready.push([buyer, offerId, NAMES[index] ?? '']);
    }
    // One of them fails half way: its number is not used up.
    await endOffer(grower, { offerId: await offered(buyers[0], await postedLot(grower)) });
    await Promise.all(ready.map(([buyer, offerId, name]) => signNewest(buyer, offerId, name)));
    const superuser = await record.superuser();
    const { rows } = await superuser.query(
      'SELECT serial FROM signing WHERE seller_id = $1 ORDER BY serial',
      [grower.caller.partyId],
    );
    await superuser.end();
    expect(rows).toEqual([{ serial: 1 }, { serial: 2 }, { serial: 3 }]);
  });
});

const LOAD = { gross: '78220', tare: '31100', unit: 'lb', sample: 'S1' };
const RESULT = { sample: 'S1', basis: 'dry-matter', dry_matter: '59.2', starch: '54', ndf: '31.34' };
const at = (day: string) => `${day}T12:00:00-06:00`;

describe('an agreement that stands', () => {
  let agreementId: string;
  beforeAll(async () => {
    agreementId = await agreed({ seller: [seller, SELLER], buyer: [buyers[0], NAMES[0]] });
  });

  test('is amended from a day on, and earlier loads keep the version they were delivered under', async () => {
    const { recordQuotes } = await import('../../src/usecases/prices/record-quotes.ts');
    const { recordResults } = await import('../../src/usecases/results/record-results.ts');
    const { readLoadList } = await import('../../src/usecases/loads/read-load-list.ts');
    await recordQuotes(seller, {
      agreementId,
      quotes: [
        { series: 'corn-elevator-bid', date: '2026-09-14', price: '4.20' },
        { series: 'corn-elevator-bid', date: '2026-09-20', price: '4.20' },
      ],
    });
    await recordLoads(seller, {
      agreementId,
      loads: [{ ...LOAD, ticket: 'T1', delivered_at: at('2026-09-14') }],
    });
    await recordResults(buyers[0], { agreementId, results: [RESULT] });
    const flat = {
      ...TERMS,
      price: [{ term: 'flat', label: 'All', rate: '60', per: 'short-ton', weight: 'as-fed' }],
    };
    const amendment = { agreementId, document: flat, effectiveFrom: '2026-09-16', validDays: '10' };
    expect(
      await refused(proposeAmendment(seller, { ...amendment, document: { ...flat, currency: 'EUR' } })),
    ).toBe('bad-input');
    const { offerId } = await proposeAmendment(seller, amendment);
    expect(
      await refused(proposeClosing(buyers[0], { agreementId, lastDelivery: '2026-10-01', validDays: '3' })),
    ).toBe('offer-open');
    await signNewest(seller, offerId, SELLER);
    await signNewest(buyers[0], offerId, NAMES[0]);
    await recordLoads(buyers[0], {
      agreementId,
      loads: [
        { ...LOAD, ticket: 'T2', delivered_at: at('2026-09-16') },
        { ...LOAD, ticket: 'T0', delivered_at: at('2026-09-15') },
      ],
    });
    expect(await settleLoads(seller, { agreementId })).toEqual({ settled: 3, refused: 0, waiting: 0 });
    const { loads } = await readLoadList(seller, { agreementId, status: 'settled', locale: 'en-US' });
    const totals = Object.fromEntries(
      loads.map(({ ticket, standing }) => [ticket, 'total' in standing ? standing.total : '']),
    );
    // 23.56 short tons at 60; the others by the worked example of the format.
    expect(totals).toEqual({ T0: '1,986.85', T1: '1,986.85', T2: '1,413.60' });
    expect(await refused(proposeAmendment(seller, { ...amendment, effectiveFrom: '2026-09-16' }))).toBe(
      'bad-input',
    );
    expect((await verifyRecord(record.tools)).faults).toEqual([]);
  });

  test('refuses an amendment whose day was overtaken by a settled load', async () => {
    const { offerId } = await proposeAmendment(seller, {
      agreementId,
      document: TERMS,
      effectiveFrom: '2026-09-18',
      validDays: '10',
    });
    await signNewest(seller, offerId, SELLER);
    await recordLoads(seller, {
      agreementId,
      loads: [{ ...LOAD, ticket: 'T3', delivered_at: at('2026-09-19') }],
    });
    await settleLoads(seller, { agreementId });
    expect(await refused(signNewest(buyers[0], offerId, NAMES[0]))).toBe('delivered-already');
    await counterOffer(buyers[0], {
      offerId,
      baseVersion: 1,
      document: TERMS,
      effectiveFrom: '2026-09-20',
      validDays: '10',
    });
    expect((await readOffer(seller, { offerId })).newest.signatures).toEqual([]);
    await signNewest(buyers[0], offerId, NAMES[0]);
    expect(await signNewest(seller, offerId, SELLER)).toEqual({ agreementId });
  });

  test('is closed early by both, and takes no later load', async () => {
    expect(
      await refused(proposeClosing(buyers[0], { agreementId, lastDelivery: '2026-09-15', validDays: '3' })),
    ).toBe('bad-input');
    const { offerId } = await proposeClosing(buyers[0], {
      agreementId,
      lastDelivery: '2026-09-30',
      reason: 'The field is empty.',
      validDays: '3',
    });
    await signNewest(buyers[0], offerId, NAMES[0]);
    await signNewest(seller, offerId, SELLER);
    const late = [{ ...LOAD, ticket: 'T9', delivered_at: at('2026-10-01') }];
    expect(await refused(recordLoads(seller, { agreementId, loads: late }))).toBe('agreement-closed');
    expect(
      await refused(
        proposeAmendment(seller, {
          agreementId,
          document: TERMS,
          effectiveFrom: '2026-09-29',
          validDays: '3',
        }),
      ),
    ).toBe('agreement-closed');
    expect((await verifyRecord(record.tools)).faults).toEqual([]);
  });
});

describe('who may', () => {
  test.each(ROLES)('as %s', async (role) => {
    const lotId = await postedLot(seller);
    const as = (context: Context) => ({ ...context, caller: { ...context.caller, role } });
    const office = role === 'owner' || role === 'bookkeeper';
    const made = await refused(makeOffer(as(buyers[0]), { lotId, document: TERMS, validDays: '7' }));
    expect(made).toBe(office ? 'done' : 'not-allowed');
    const offerId = await offered(buyers[1], lotId);
    const kept = await refused(draftLot(as(seller), { document: LOT }));
    expect(kept).toBe(office ? 'done' : 'not-allowed');
    const { newest } = await readOffer(as(seller), { offerId });
    const signed = await refused(
      signOffer(as(seller), {
        offerId,
        version: newest.version,
        fingerprint: newest.fingerprint,
        name: `${SELLER} owner`,
        password: PASSWORD,
        address: 'test',
      }),
    );
    expect(signed).toBe(role === 'owner' ? 'done' : 'not-allowed');
    expect(await refused(endOffer(as(seller), { offerId }))).toBe(office ? 'done' : 'not-allowed');
    expect(await refused(withdrawLot(as(seller), { lotId }))).toBe(office ? 'done' : 'not-allowed');
  });
});
