/**
 * What pages of offers and agreements are told: offers beside one another for the seller alone, what a version is held
 * against, which side an adviser is on, where the feed lies and how much of it has come.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readAgreementList } from '../../src/usecases/agreements/read-agreement-list.ts';
import { readAgreementPage } from '../../src/usecases/agreements/read-agreement-page.ts';
import { readAgreementWords } from '../../src/usecases/agreements/read-agreement-words.ts';
import type { Context } from '../../src/usecases/context.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { counterOffer } from '../../src/usecases/offers/counter-offer.ts';
import { makeOffer } from '../../src/usecases/offers/make-offer.ts';
import { proposeAmendment, proposeClosing } from '../../src/usecases/offers/propose-amendment.ts';
import { readOfferGround } from '../../src/usecases/offers/read-offer-ground.ts';
import { readOfferList } from '../../src/usecases/offers/read-offer-list.ts';
import { readOfferPage } from '../../src/usecases/offers/read-offer-page.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { newSigner, offered, postedLot, signNewest, TERMS } from './bargain.ts';

const locale = 'en-US';
const SELLER = 'Quillback Acres';
const BUYER = 'Tarn Hollow Dairy';

let record: TestRecord;
let seller: Context;
let buyer: Context;
let rival: Context;
let adviser: Context;

beforeAll(async () => {
  record = await openTestRecord();
  seller = await newSigner(record.tools, SELLER);
  buyer = await newSigner(record.tools, BUYER);
  rival = await newSigner(record.tools, 'Sorrel Bend Dairy');
  adviser = await newSigner(record.tools, 'Row and Husk Advice');
});
afterAll(() => record.close());

/** So much a short ton as fed, whatever it tests. */
function flat(rate: string, volume?: object) {
  const price = [{ term: 'flat', label: 'All', rate, per: 'short-ton', weight: 'as-fed' }];
  const { references: _r, ...rest } = TERMS as Record<string, unknown>;
  const conditions = volume === undefined ? {} : { conditions: { volume } };
  return { ...rest, references: {}, acceptance: [], price, ...conditions };
}

describe('offers on one lot', () => {
  let lotId: string;
  let offerId: string;
  let rivalOfferId: string;

  beforeAll(async () => {
    lotId = await postedLot(seller);
    ({ offerId } = await makeOffer(buyer, { lotId, document: flat('60'), validDays: '7' }));
    ({ offerId: rivalOfferId } = await makeOffer(rival, {
      lotId,
      document: flat('61.50'),
      message: 'from the rival alone',
      validDays: '7',
    }));
  });

  test('stand beside one another for the seller, paid on the same loads', async () => {
    const [group] = await readOfferList(seller, { locale });
    expect(group?.lot?.id).toBe(lotId);
    expect(group?.offers.map(({ buyer: name }) => name).sort()).toEqual(['Sorrel Bend Dairy', BUYER]);
    expect(group?.beside?.loads).toHaveLength(5);
    // 48,000 lb are 24 short tons: × 60 = 1,440.00, × 61.50 = 1,476.00; dry, as tested at 58 %: 24 × 0.58 = 13.92 tons,
    // 1,440 ÷ 13.92 = 103.448…
    expect(group?.beside?.loads[0]).toEqual({ label: 'As tested', weight: '48,000 lb' });
    expect(group?.beside?.prices.get(offerId)?.[0]).toEqual({
      total: '1,440.00 USD',
      perTonDry: '103.45',
    });
    expect(group?.beside?.prices.get(rivalOfferId)?.[0]).toMatchObject({ total: '1,476.00 USD' });
  });

  test('are each its own buyer’s alone', async () => {
    for (const [context, own] of [
      [buyer, offerId],
      [rival, rivalOfferId],
    ] as const) {
      const groups = await readOfferList(context, { locale });
      const ids = groups.flatMap(({ offers }) => offers.map(({ id }) => id));
      expect(ids).toEqual([own]);
      expect(groups.map(({ beside }) => beside)).toEqual([undefined]);
    }
    const seen = JSON.stringify([
      await readOfferList(buyer, { locale }),
      await readOfferPage(buyer, { offerId }),
      await readOfferGround(buyer, { lotId }),
    ]);
    expect(seen).not.toMatch(/Sorrel Bend|61\.50|from the rival alone/);
    await expect(readOfferPage(buyer, { offerId: rivalOfferId })).rejects.toMatchObject({
      code: 'not-found',
    });
  });

  test('follow quotes that are typed, recorded or said to be assumed', async () => {
    const other = await postedLot(seller);
    await offered(buyer, other);
    await offered(rival, other);
    const groupOf = async (quotes?: ReadonlyMap<string, string>) =>
      (await readOfferList(seller, { locale, ...(quotes ? { quotes } : {}) })).find(
        ({ lot }) => lot?.id === other,
      );
    const [assumed] = (await groupOf())?.beside?.quotes ?? [];
    expect(assumed).toMatchObject({ from: 'assumed' });
    const typed = await groupOf(new Map([[assumed?.key ?? '', '9.99']]));
    expect(typed?.beside?.quotes[0]).toMatchObject({ quote: '9.99', from: 'typed' });
    expect(typed?.beside?.prices).not.toEqual((await groupOf())?.beside?.prices);
  });

  test('are held against the asking formula, then against the version before', async () => {
    const first = await readOfferPage(seller, { offerId });
    expect(first.before?.name).toBe('the asking formula as it stands now');
    expect(first.before?.document).toMatchObject({ buyer: BUYER, price: TERMS['price'] });
    expect(first.standing).toMatch(/^Tarn Hollow Dairy sent version 1\./);
    await counterOffer(seller, { offerId, baseVersion: 1, document: flat('63'), validDays: '5' });
    const second = await readOfferPage(buyer, { offerId });
    expect(second.before?.name).toBe('version 1');
    expect(second.before?.document).toMatchObject({ price: [{ rate: '60' }] });
    expect(second.standing).toBe((await readOfferPage(seller, { offerId })).standing);
  });

  test('begin as the seller asks, for anybody but the seller', async () => {
    const ground = await readOfferGround(rival, { lotId });
    expect(ground).toMatchObject({ openOfferId: rivalOfferId, isOpen: true });
    expect(ground.draft).toMatchObject({ format: 'huskledger-agreement/1', buyer: 'Sorrel Bend Dairy' });
    await expect(readOfferGround(seller, { lotId })).rejects.toMatchObject({ code: 'not-yours' });
    const viewer = { ...rival, caller: { ...rival.caller, role: 'viewer' as const } };
    await expect(readOfferGround(viewer, { lotId })).rejects.toMatchObject({ code: 'not-allowed' });
  });
});

describe('an agreement', () => {
  let agreementId: string;
  const volume = { amount: '40', unit: 'short-ton', weight: 'as-fed', tolerancePercent: '10' };

  beforeAll(async () => {
    const lotId = await postedLot(seller);
    const { offerId } = await makeOffer(buyer, { lotId, document: flat('60', volume), validDays: '7' });
    await signNewest(buyer, offerId, BUYER);
    agreementId = (await signNewest(seller, offerId, SELLER)).agreementId ?? '';
  });

  const pageFor = (context: Context) => readAgreementPage(context, { agreementId, locale });

  test('says where the feed lies and how much has come', async () => {
    expect((await pageFor(buyer)).lot).toMatchObject({ address: '4 Teasel Lane' });
    expect((await pageFor(buyer)).delivered).toBe(
      'Nothing of the agreed 40 short tons as fed is delivered yet.',
    );
    const load = (ticket: string, gross: string) => ({
      ticket,
      delivered_at: '2026-11-20T09:00:00-07:00',
      gross,
      tare: '30000',
      unit: 'lb',
    });
    await recordLoads(buyer, {
      agreementId,
      loads: [load('V-1', '78000'), load('V-2', '76400')],
      confirmed: true,
    });
    // 48,000 and 46,400 lb are 94,400 lb, 47.2 short tons; 40 and 10 % are 44.
    expect((await pageFor(seller)).delivered).toBe(
      '47.2 of 40 short tons as fed are delivered, in 2 loads. That is 3.2 short tons more than was agreed, with 10 % tolerance.',
    );
  });

  test('is no rival’s, and an adviser’s to read as neither side', async () => {
    await expect(pageFor(rival)).rejects.toMatchObject({ code: 'not-found' });
    await expect(pageFor(adviser)).rejects.toMatchObject({ code: 'not-found' });
    const { secret } = await askAdviser(buyer, { agreementId });
    await acceptShare(adviser, { secret });
    expect((await pageFor(adviser)).side).toBe('adviser');
    expect(await readAgreementWords(adviser, { agreementId })).toMatchObject({ side: 'adviser' });
    expect(await readAgreementList(adviser, { locale })).toMatchObject([
      { id: agreementId, side: 'adviser', serial: 1 },
    ]);
    expect((await pageFor(seller)).side).toBe('seller');
    expect((await pageFor(buyer)).side).toBe('buyer');
  });

  test('shows which version counts today, what is proposed, and that it was closed', async () => {
    const { document } = await pageFor(buyer);
    const { offerId } = await proposeAmendment(seller, {
      agreementId,
      document: { ...document, price: flat('62').price },
      effectiveFrom: '2026-12-24',
      validDays: '7',
    });
    expect((await pageFor(buyer)).proposal).toEqual({ offerId, purpose: 'amendment' });
    expect((await readOfferPage(buyer, { offerId })).before?.name).toBe('version 1 of the agreement');
    await signNewest(seller, offerId, SELLER);
    await signNewest(buyer, offerId, BUYER);
    const amended = await pageFor(buyer);
    expect(amended.proposal).toBeUndefined();
    expect(
      amended.versions.map(({ version, isInForce, effectiveFrom, signatures }) => [
        version,
        isInForce,
        effectiveFrom,
        signatures.length,
      ]),
    ).toEqual([
      [1, true, null, 2],
      [2, false, '2026-12-24', 2],
    ]);
    // What was signed is still held against what it changed.
    expect((await readOfferPage(buyer, { offerId })).before?.name).toBe('version 1 of the agreement');

    const closing = await proposeClosing(buyer, {
      agreementId,
      lastDelivery: '2026-12-31',
      validDays: '7',
    });
    await signNewest(buyer, closing.offerId, BUYER);
    await signNewest(seller, closing.offerId, SELLER);
    expect((await pageFor(seller)).closing).toMatchObject({ lastDelivery: '2026-12-31' });
    expect(await readAgreementList(seller, { locale })).toMatchObject([
      { closedOn: '2026-12-31', version: 2 },
    ]);
  });
});
