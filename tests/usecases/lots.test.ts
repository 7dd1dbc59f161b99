/**
 * Feed for sale: who sees which lot, file and extract, how lots are chosen and priced, and what anybody may see.
 */
import type { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { LotDocument } from '../../src/domain/lots/lot-document.ts';
import type { Context } from '../../src/usecases/context.ts';
import { ANY_FEED, type FeedRequest, readFeedRequest } from '../../src/usecases/lots/feed-request.ts';
import { changeLot, draftLot } from '../../src/usecases/lots/keep-lot.ts';
import { attachFile, readFile } from '../../src/usecases/lots/lot-files.ts';
import { postLot, withdrawLot } from '../../src/usecases/lots/post-lot.ts';
import { readPublicListing, readPublicListings } from '../../src/usecases/lots/public-listings.ts';
import { compareLots, readFeedForSale } from '../../src/usecases/lots/read-feed-for-sale.ts';
import { readLotView } from '../../src/usecases/lots/read-lot-view.ts';
import { readPlace, setDistance, setPlace } from '../../src/usecases/lots/set-place.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { agreed, LOT, newSigner, offered, postedLot, signNewest, TERMS } from './bargain.ts';
import { refused } from './refused.ts';

let record: TestRecord;
let client: Client;
let seller: Context;
let buyer: Context;
let rival: Context;
const BUYER = 'Tarn Hollow Dairy';
const KEY = 'corn-elevator-bid, USD per bushel';
const PDF = Uint8Array.from('%PDF-1.7 a report', (sign) => sign.charCodeAt(0));
const locale = 'en-US';

beforeAll(async () => {
  record = await openTestRecord();
  client = await record.superuser();
});
afterAll(async () => {
  await client.end();
  await record.close();
});

/** Each group of tests has parties of its own. */
async function newParties(): Promise<void> {
  seller = await newSigner(record.tools, 'Quillback Acres');
  buyer = await newSigner(record.tools, BUYER);
  rival = await newSigner(record.tools, 'Sorrel Bend Dairy');
}

async function posted(
  changes: object = {},
  audience = 'everyone',
  publicParts?: readonly string[],
): Promise<string> {
  const { lotId } = await draftLot(seller, { document: { ...LOT, ...changes }, address: '4 Teasel Lane' });
  await postLot(seller, { lotId, audience, ...(publicParts ? { publicParts } : {}) });
  return lotId;
}

async function invite(lotId: string, guest: Context): Promise<void> {
  const { partyId: sellerId, personId: invitedBy } = seller.caller;
  await seller.store.forParty(sellerId, (tx) =>
    tx.lotGuest.create({
      data: { lotId, partyId: guest.caller.partyId, sellerId, invitedAt: new Date(), invitedBy },
    }),
  );
}

const view = (context: Context, lotId: string) => readLotView(context, { lotId, basis: ANY_FEED, locale });
const seen = async (context: Context, request: Partial<FeedRequest> = {}) => {
  const { own, others } = await readFeedForSale(context, { request: { ...ANY_FEED, ...request }, locale });
  return [...own, ...others].map(({ id }) => id);
};

describe('who sees a lot', () => {
  let everyone: string;
  let invited: string;
  let draft: string;
  beforeAll(async () => {
    await newParties();
    everyone = await posted();
    invited = await posted({}, 'invited');
    ({ lotId: draft } = await draftLot(seller, { document: LOT, address: '9 Teasel Lane' }));
  });

  test('a draft is its seller’s alone, also by its address', async () => {
    expect(await seen(seller)).toContain(draft);
    expect(await seen(buyer, { onlyOpen: false })).not.toContain(draft);
    expect(await refused(view(buyer, draft))).toBe('not-found');
    expect((await view(seller, draft)).summary.standing).toBe('draft');
  });

  test('one for invited parties shows once a party is invited', async () => {
    expect(await seen(buyer)).toEqual([everyone]);
    expect(await refused(view(buyer, invited))).toBe('not-found');
    await invite(invited, buyer);
    expect(await seen(buyer)).toContain(invited);
    expect(await seen(rival)).not.toContain(invited);
    expect(await refused(view(rival, invited))).toBe('not-found');
    expect((await view(seller, invited)).guests).toEqual([BUYER]);
    expect((await view(buyer, invited)).guests).toEqual([]);
  });

  test('a change of a posted lot shows at once, a change of a draft does not', async () => {
    await changeLot(seller, {
      lotId: everyone,
      document: { ...LOT, wetTons: '1400' },
      address: '4 Teasel Lane',
    });
    expect((await view(buyer, everyone)).summary.amount).toBe('1,400 short tons wet, 870 dry');
  });

  test('its address stays where a change says nothing of it, and goes where it is emptied', async () => {
    const { lotId } = await draftLot(seller, { document: LOT, address: '9 Teasel Lane' });
    await changeLot(seller, { lotId, document: LOT });
    expect((await view(seller, lotId)).address).toBe('9 Teasel Lane');
    await changeLot(seller, { lotId, document: LOT, address: ' ' });
    expect((await view(seller, lotId)).address).toBeNull();
  });

  test('its address is the seller’s until both have signed, and then the buyer’s', async () => {
    expect((await view(buyer, everyone)).address).toBeNull();
    expect((await view(seller, everyone)).address).toBe('4 Teasel Lane');
    const offerId = await offered(buyer, everyone);
    await offered(rival, everyone);
    expect((await view(buyer, everyone)).address).toBeNull();
    await signNewest(buyer, offerId, BUYER);
    expect((await view(rival, everyone)).summary.standing).toBe('under-offer');
    await signNewest(seller, offerId, 'Quillback Acres');
    expect((await view(buyer, everyone)).address).toBe('4 Teasel Lane');
    expect((await view(rival, everyone)).address).toBeNull();
    expect((await view(rival, everyone)).summary.standing).toBe('sold');
    const stranger = await newSigner(record.tools, 'Lanternfield Dairy');
    expect(await refused(view(stranger, everyone))).toBe('not-found');
  });

  test('one that was withdrawn is gone, but for who was invited or had an offer', async () => {
    const lotId = await posted();
    await offered(buyer, lotId);
    await withdrawLot(seller, { lotId });
    expect((await view(buyer, lotId)).summary.standing).toBe('withdrawn');
    expect(await seen(buyer)).not.toContain(lotId);
    expect(await seen(buyer, { onlyOpen: false })).toContain(lotId);
    expect(await refused(view(rival, lotId))).toBe('not-found');
    expect(await seen(seller)).toContain(lotId);
  });
});

describe('offers in lot views', () => {
  beforeAll(newParties);

  test('a buyer finds its own, the seller all, and a rival nothing of another’s', async () => {
    const lotId = await posted();
    const offerId = await offered(buyer, lotId);
    const rivalId = await offered(rival, lotId);
    expect((await view(buyer, lotId)).offers.map(({ id }) => id)).toEqual([offerId]);
    expect((await view(rival, lotId)).offers.map(({ id }) => id)).toEqual([rivalId]);
    expect(new Set((await view(seller, lotId)).offers.map(({ other }) => other))).toEqual(
      new Set([BUYER, 'Sorrel Bend Dairy']),
    );
    const shown = JSON.stringify([
      await view(rival, lotId),
      await readFeedForSale(rival, { request: ANY_FEED, locale }),
    ]);
    expect(shown).not.toContain(BUYER);
    expect(shown).not.toContain(offerId);
  });

  test('answers that wait are told to whoever is to answer, then drafts', async () => {
    const { lotId: draft } = await draftLot(seller, { document: LOT });
    const waiting = async (context: Context) =>
      (await readFeedForSale(context, { request: ANY_FEED, locale })).waiting;
    const told = await waiting(seller);
    expect(told[0]).toMatchObject({ kind: 'answer', isOwn: true });
    expect(told[0]?.kind === 'answer' && told[0].offerIds.length).toBe(2);
    expect(told.at(-1)).toMatchObject({ kind: 'draft', lotId: draft });
    expect(await waiting(buyer)).toEqual([]);
  });
});

describe('an adviser on a lot', () => {
  beforeAll(newParties);

  test('is told whom it advises, and sees neither offers nor the address', async () => {
    const lotId = await posted({}, 'invited');
    await invite(lotId, buyer);
    await offered(buyer, lotId);
    const adviser = await newSigner(record.tools, 'Row and Husk Advice');
    const { secret } = await askAdviser(buyer, { lotId });
    await acceptShare(adviser, { secret });
    const { advises, offers, address, guests } = await view(adviser, lotId);
    expect({ advises, offers, address, guests }).toEqual({
      advises: BUYER,
      offers: [],
      address: null,
      guests: [],
    });
    expect((await view(buyer, lotId)).advises).toBeUndefined();
  });
});

describe('lots are chosen and put in order', () => {
  const ids: Record<string, string> = {};
  beforeAll(async () => {
    await newParties();
    const tested = (dry: string, starch: string, ndf: string) => ({
      tests: [{ ...LOT.tests[0], 'dry-matter': dry, starch, ndf }],
    });
    const place = (latitude: string) => ({ place: { latitude, longitude: '-116.2' } });
    ids['near'] = await posted({ ...tested('56', '52', '29'), ...place('43.9') });
    ids['rich'] = await posted({ ...tested('60', '60', '22'), ...place('45.6') });
    ids['untested'] = await posted({ tests: [] });
    ids['silage'] = await posted({
      feed: 'corn-silage',
      asking: { ...TERMS, feed: 'corn-silage' },
      tests: [],
    });
  });
  const named = async (request: Partial<FeedRequest>) =>
    (await seen(buyer, request)).flatMap((id) => Object.keys(ids).find((name) => ids[name] === id) ?? []);
  const texts = (asked: Readonly<Record<string, string>>) =>
    named(readFeedRequest(new Map(Object.entries(asked))).request);

  test('by kind, figures and distance', async () => {
    expect(await named({})).toEqual(['silage', 'untested', 'rich', 'near']);
    expect(await texts({ feed: 'corn-silage' })).toEqual(['silage']);
    expect(await texts({ starchFrom: '55' })).toEqual(['rich']);
    expect(await texts({ ndfTo: '29' })).toEqual(['rich', 'near']);
    expect(await texts({ dryFrom: '56', dryTo: '58.5', feed: 'whole-ear-corn' })).toEqual([
      'untested',
      'near',
    ]);
    expect(await texts({ within: '500' })).toEqual([]);
    await setPlace(buyer, { latitude: '43.6', longitude: '-116.2' });
    // 0.3 degrees of a meridian are 20.7 miles, 2 degrees 138.
    expect(await texts({ within: '21' })).toEqual(['silage', 'untested', 'near']);
    expect(await texts({ within: '30', withinUnit: 'km' })).toEqual(['silage', 'untested']);
    expect(await texts({ sort: 'distance', starchFrom: '1' })).toEqual(['near', 'rich']);
    expect(await texts({ sort: 'starch' })).toEqual(['rich', 'near', 'silage', 'untested']);
    expect(await texts({ sort: 'ndf' })).toEqual(['rich', 'near', 'silage', 'untested']);
    expect((await texts({ sort: 'dry-matter' }))[0]).toBe('rich');
    expect((await texts({ sort: 'kind' })).at(-1)).toBe('silage');
    await setPlace(buyer, { latitude: '', longitude: '' });
  });

  test('without a quote the price is asked for, with one lots are put in order by it', async () => {
    const { others, quotes } = await readFeedForSale(buyer, { request: ANY_FEED, locale });
    expect(quotes).toEqual([
      { key: KEY, series: 'corn-elevator-bid', quote: undefined, from: undefined, on: undefined },
    ]);
    expect(others[0]?.worth).toEqual({ status: 'lacking', quotes: [KEY], distance: false });
    const { request, problems } = readFeedRequest(
      new Map([
        [`at ${KEY}`, '4.40'],
        ['sort', 'price-dry'],
      ]),
    );
    expect(problems).toEqual([]);
    const priced = await readFeedForSale(buyer, { request: { ...request, feed: 'whole-ear-corn' }, locale });
    expect(priced.others.map(({ id }) => id).slice(-1)).toEqual([ids['rich']]);
    expect(priced.others[0]?.worth).toMatchObject({
      status: 'priced',
      at: ['corn-elevator-bid 4.40'],
      load: '48,000 lb',
    });
    const beside = await compareLots(buyer, {
      lotIds: [ids['rich'] ?? '', 'no-such', ids['near'] ?? ''],
      basis: request,
      locale,
    });
    expect(beside.lots.map(({ id }) => id)).toEqual([ids['rich'], ids['near']]);
  });

  test('what cannot be read is named and left out', () => {
    const { request, problems } = readFeedRequest(
      new Map([
        ['dryFrom', 'wet'],
        ['starchFrom', '101'],
        ['sort', 'luck'],
        ['feed', 'whole-ear-corn'],
        ['rate', '-1'],
      ]),
    );
    expect(problems.map(({ column }) => column)).toEqual(['rate', 'dryFrom', 'starchFrom', 'sort']);
    expect(request).toMatchObject({ feed: 'whole-ear-corn', dryMatterFrom: undefined, sort: 'newest' });
  });

  test('the last quote that the party recorded for the series is used, with its day', async () => {
    await agreed({ seller: [seller, 'Quillback Acres'], buyer: [buyer, BUYER] });
    const { agreementId } = await seller.store.forParty(buyer.caller.partyId, async (tx) => {
      const [row] = await tx.$queryRawUnsafe<{ id: string }[]>('SELECT id FROM agreement');
      return { agreementId: row?.id ?? '' };
    });
    const quotes = [
      { series: 'corn-elevator-bid', date: '2026-11-02', price: '4.31' },
      { series: 'corn-elevator-bid', date: '2026-11-09', price: '4.37' },
    ];
    await recordQuotes(buyer, { agreementId, quotes });
    const { quotes: asked } = await readFeedForSale(buyer, { request: ANY_FEED, locale });
    expect(asked).toMatchObject([{ key: KEY, quote: '4.37', from: 'recorded', on: '2026-11-09' }]);
    const { quotes: others } = await readFeedForSale(rival, { request: ANY_FEED, locale });
    expect(others).toMatchObject([{ quote: undefined }]);
  });
});

describe('a party’s own place and distances', () => {
  beforeAll(newParties);

  test('are its own alone, and go again', async () => {
    const lotId = await posted();
    await setPlace(buyer, { latitude: '42.6', longitude: '-114.5' });
    expect(await readPlace(buyer)).toEqual({ latitude: '42.6', longitude: '-114.5' });
    expect(await readPlace(rival)).toBeUndefined();
    expect((await view(buyer, lotId)).summary.distance).toMatchObject({ kind: 'crow' });
    await setDistance(buyer, { lotId, length: '131.5', unit: 'mile' });
    expect((await view(buyer, lotId)).summary.distance).toEqual({ shown: '131.5 miles', kind: 'road' });
    expect((await view(rival, lotId)).summary.distance).toBeUndefined();
    await setDistance(buyer, { lotId, length: '', unit: 'mile' });
    expect((await view(buyer, lotId)).summary.distance).toMatchObject({ kind: 'crow' });
  });

  test('what is no place, distance or lot is refused', async () => {
    const lotId = await posted({}, 'invited');
    expect(await refused(setPlace(buyer, { latitude: '91', longitude: '0' }))).toBe('bad-input');
    expect(await refused(setPlace(buyer, { latitude: '', longitude: '10' }))).toBe('bad-input');
    expect(await refused(setDistance(buyer, { lotId, length: '5', unit: 'mile' }))).toBe('not-found');
    const open = await posted();
    expect(await refused(setDistance(buyer, { lotId: open, length: 'far', unit: 'mile' }))).toBe('bad-input');
    expect(await refused(setDistance(buyer, { lotId: open, length: '5', unit: 'league' }))).toBe('bad-input');
    const viewer = { ...buyer, caller: { ...buyer.caller, role: 'viewer' as const } };
    expect(await refused(setPlace(viewer, { latitude: '1', longitude: '1' }))).toBe('not-allowed');
  });
});

describe('files of a lot', () => {
  beforeAll(newParties);

  test('are kept by their content, and handed to whoever may see the lot', async () => {
    const { lotId } = await draftLot(seller, { document: LOT });
    const attached = { lotId, name: 'C:\\tests\\August.exe', bytes: PDF, key: 'once' };
    const { fileId } = await attachFile(seller, attached);
    expect(await attachFile(seller, attached)).toEqual({ fileId });
    expect((await view(seller, lotId)).files).toMatchObject([
      { id: fileId, name: 'C tests August.exe.pdf', kind: 'application/pdf', size: PDF.length },
    ]);
    expect(await refused(readFile(buyer, { lotId, fileId }))).toBe('not-found');
    await postLot(seller, { lotId, audience: 'everyone' });
    expect(Buffer.from((await readFile(buyer, { lotId, fileId })).bytes).toString()).toBe(
      '%PDF-1.7 a report',
    );
    const other = await posted();
    expect(await refused(readFile(buyer, { lotId: other, fileId }))).toBe('not-found');
    expect(await refused(readFile(buyer, { lotId, fileId: 'x' }))).toBe('not-found');
  });

  test.each([
    ['a page', new TextEncoder().encode('<html><script>alert(1)</script>')],
    ['nothing', new Uint8Array(0)],
    ['more than 10 MB', Uint8Array.from({ length: 10 * 1024 * 1024 + 1 }, (_, index) => PDF[index] ?? 0)],
  ])('%s is refused, whatever it is called', async (_, bytes) => {
    const { lotId } = await draftLot(seller, { document: LOT });
    expect(await refused(attachFile(seller, { lotId, name: 'report.pdf', bytes }))).toBe('bad-input');
  });

  test('only its seller attaches, and not to a lot that is sold', async () => {
    const lotId = await posted();
    expect(await refused(attachFile(buyer, { lotId, name: 'a.pdf', bytes: PDF }))).toBe('not-yours');
    const offerId = await offered(buyer, lotId);
    await signNewest(buyer, offerId, BUYER);
    await signNewest(seller, offerId, 'Quillback Acres');
    expect(await refused(attachFile(seller, { lotId, name: 'a.pdf', bytes: PDF }))).toBe('lot-closed');
  });

  test('a test may name a file of its lot and no other', async () => {
    const one = await posted();
    const { fileId } = await attachFile(seller, { lotId: one, name: 'a.pdf', bytes: PDF });
    const document = { ...LOT, tests: [{ ...LOT.tests[0], file: fileId }] };
    expect(await refused(changeLot(seller, { lotId: one, document }))).toBe('done');
    const two = await posted();
    expect(await refused(changeLot(seller, { lotId: two, document }))).toBe('bad-input');
    expect(await refused(draftLot(seller, { document }))).toBe('bad-input');
  });
});

describe('what anybody may see', () => {
  beforeAll(newParties);

  test('holds the marked parts and no others', async () => {
    const notes = 'Ask for the field map.';
    const hidden = await posted({ notes });
    const lotId = await posted({ notes }, 'everyone', ['amount', 'price']);
    const listed = await readPublicListings(record.tools);
    expect(listed.map((listing) => listing.lotId)).toEqual([lotId]);
    const listing = await readPublicListing(record.tools, { lotId });
    expect(Object.keys(listing).sort()).toEqual(
      ['amount', 'feed', 'feedWords', 'lotId', 'parts', 'postedAt', 'price', 'until'].sort(),
    );
    expect(listing.feedWords).toContain('grain, cob and husk');
    expect(JSON.stringify(listing)).not.toMatch(/Quillback|Teasel|Fennel|field map|43\.6/);
    expect(await refused(readPublicListing(record.tools, { lotId: hidden }))).toBe('not-found');
    expect(await refused(readPublicListing(record.tools, { lotId: 'x' }))).toBe('not-found');
    const changed: Pick<LotDocument, 'wetTons'> = { wetTons: '900' };
    await changeLot(seller, { lotId, document: { ...LOT, ...changed, notes } });
    expect((await readPublicListing(record.tools, { lotId })).amount?.wetTons).toBe('900');
    await withdrawLot(seller, { lotId });
    expect(await readPublicListings(record.tools)).toEqual([]);
  });

  test('and with every part: still no address, place or file', async () => {
    const parts = ['seller', 'amount', 'storage', 'tests', 'region', 'delivery', 'price', 'notes'];
    const lotId = await posted({}, 'everyone', parts);
    const { fileId } = await attachFile(seller, { lotId, name: 'a.pdf', bytes: PDF });
    await changeLot(seller, { lotId, document: { ...LOT, tests: [{ ...LOT.tests[0], file: fileId }] } });
    const shown = JSON.stringify(await readPublicListing(record.tools, { lotId }));
    expect(shown).toContain('Upper Teasel Valley');
    expect(shown).not.toMatch(new RegExp(`Teasel Lane|116\\.2|${fileId}`));
  });

  test('the gate for the public opens on nothing else, whatever is asked', async () => {
    await postedLot(seller);
    const ask = async (sql: string) =>
      await record.store.forPublic((tx) => tx.$queryRawUnsafe<unknown[]>(sql)).catch(() => 'refused');
    expect(await ask('SELECT lot_id FROM public_listing')).not.toBe('refused');
    const { rows } = await client.query<{ name: string }>(
      "SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' AND tablename <> 'public_listing'",
    );
    expect(rows.length).toBeGreaterThan(30);
    for (const { name } of rows)
      expect([name, await ask(`SELECT * FROM "${name}"`)]).toEqual([name, 'refused']);
    expect(await ask("UPDATE public_listing SET document = '{}'")).toBe('refused');
    expect(await ask('DELETE FROM public_listing')).toBe('refused');
  });

  test('a listing whose last day is over is gone for the database’s own clock, too', async () => {
    const lotId = await posted({}, 'everyone', ['amount']);
    await client.query(
      "UPDATE public_listing SET open_until = now() - interval '1 second' WHERE lot_id = $1",
      [lotId],
    );
    expect((await readPublicListings(record.tools)).map((listing) => listing.lotId)).not.toContain(lotId);
    const early = { ...record.tools, now: () => 0 };
    expect((await readPublicListings(early)).map((listing) => listing.lotId)).not.toContain(lotId);
  });
});
