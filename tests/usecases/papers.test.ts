/**
 * Papers of offers and agreements: what they say is what was signed, the file in them gives the fingerprint, both
 * parties get the same bytes, and nobody else gets any.
 */
import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkAgreement } from '../../src/domain/agreement/check-agreement.ts';
import { agreementInWords } from '../../src/domain/words/agreement-words.ts';
import { readFonts } from '../../src/files/read-fonts.ts';
import { printAgreement } from '../../src/usecases/agreements/print-agreement.ts';
import { recordAgreement } from '../../src/usecases/agreements/record-agreement.ts';
import type { Context } from '../../src/usecases/context.ts';
import { counterOffer } from '../../src/usecases/offers/counter-offer.ts';
import { endOffer } from '../../src/usecases/offers/end-offer.ts';
import { printOffer } from '../../src/usecases/offers/print-offer.ts';
import { proposeAmendment, proposeClosing } from '../../src/usecases/offers/propose-amendment.ts';
import { readOffer } from '../../src/usecases/offers/read-offer.ts';
import { paperText, squeezed } from '../documents/agreement-text.ts';
import { attachedFiles, hasPdftotext, withoutPdftotext } from '../documents/pdf-text.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { newSigner, offered, postedLot, signNewest, TERMS } from './bargain.ts';

const SELLER = 'Quillback Acres';
const BUYER = 'Tarn Hollow Dairy';

let record: TestRecord;
let seller: Context;
let buyer: Context;
let rival: Context;
let stranger: Context;
let fonts: Awaited<ReturnType<typeof readFonts>>;
let offerId: string;
let rivalOfferId: string;
let agreementId: string;

beforeAll(async () => {
  fonts = await readFonts();
  record = await openTestRecord();
  seller = await newSigner(record.tools, SELLER);
  buyer = await newSigner(record.tools, BUYER);
  rival = await newSigner(record.tools, 'Sorrel Bend Dairy');
  stranger = await newSigner(record.tools, 'Fernway Orchards');
  const lotId = await postedLot(seller);
  offerId = await offered(buyer, lotId);
  rivalOfferId = await offered(rival, lotId);
  await signNewest(buyer, offerId, BUYER);
  agreementId = (await signNewest(seller, offerId, SELLER)).agreementId ?? '';
});
afterAll(() => record.close());

const agreementPaper = (context: Context, version?: number) =>
  printAgreement(context, { agreementId, version, fonts });
const offerPaper = (context: Context, id: string, version?: number) =>
  printOffer(context, { offerId: id, version, fonts });

describe.skipIf(!hasPdftotext)(`a signed agreement’s paper (skipped where ${withoutPdftotext})`, () => {
  test('holds every word, both signatures and the fingerprint', async () => {
    const { bytes, name } = await agreementPaper(buyer);
    const { newest } = await readOffer(buyer, { offerId });
    expect(name).toBe(`agreement-${newest.document['id']}-version-1`);
    const text = paperText(bytes);
    const { agreement } = checkAgreement(newest.document);
    if (!agreement) throw new Error('what was signed is no agreement');
    const words = agreementInWords(agreement).flatMap(({ paragraphs }) => paragraphs);
    expect(words.length).toBeGreaterThan(8);
    for (const paragraph of words) expect(text).toContain(squeezed(paragraph));
    for (const said of [
      'Agreement 1 of Quillback Acres',
      'Signed by both sides.',
      `${SELLER} owner`,
      `${BUYER} owner`,
      newest.fingerprint,
    ]) {
      expect(text).toContain(squeezed(said));
    }
    expect(newest.signatures.map(({ side }) => side).sort()).toEqual(['buyer', 'seller']);
    for (const { signedAt } of newest.signatures) {
      expect(text).toContain(squeezed(`${signedAt.slice(0, 19).replace('T', ' ')} UTC`));
    }
  });

  test('carries the file that gives the fingerprint', async () => {
    const { bytes } = await agreementPaper(seller);
    const { newest } = await readOffer(seller, { offerId });
    const file = attachedFiles(bytes).get('agreement.json') ?? Buffer.alloc(0);
    expect(createHash('sha256').update(file).digest('hex')).toBe(newest.fingerprint);
    expect(JSON.parse(file.toString())).toEqual(newest.document);
  });
});

test('both parties get the same bytes, at any time', async () => {
  const papers = [
    await agreementPaper(seller),
    await agreementPaper(buyer),
    await agreementPaper(buyer, 1),
  ].map(({ bytes }) => Buffer.from(bytes).toString('base64'));
  expect(new Set(papers).size).toBe(1);
  const offers = [await offerPaper(seller, offerId), await offerPaper(buyer, offerId)];
  expect(Buffer.compare(offers[0]?.bytes ?? Buffer.alloc(0), offers[1]?.bytes ?? Buffer.alloc(1))).toBe(0);
});

test.each(['rival', 'stranger'] as const)('a %s finds none of it', async (who) => {
  const other = who === 'rival' ? rival : stranger;
  await expect(agreementPaper(other)).rejects.toMatchObject({ code: 'not-found' });
  await expect(offerPaper(other, offerId)).rejects.toMatchObject({ code: 'not-found' });
  if (who === 'stranger') {
    await expect(offerPaper(other, rivalOfferId)).rejects.toMatchObject({ code: 'not-found' });
  }
});

test('a version that there is none of is not found, nor is what is no id', async () => {
  await expect(agreementPaper(buyer, 2)).rejects.toMatchObject({ code: 'not-found' });
  await expect(offerPaper(buyer, offerId, 7)).rejects.toMatchObject({ code: 'not-found' });
  await expect(offerPaper(buyer, 'none')).rejects.toMatchObject({ code: 'not-found' });
});

describe.skipIf(!hasPdftotext)(`papers that bind nobody say so (skipped where ${withoutPdftotext})`, () => {
  const textOf = async (id: string, version?: number) =>
    paperText((await offerPaper(seller, id, version)).bytes);

  test('unsigned, signed by one, replaced, over', async () => {
    const id = await offered(buyer, await postedLot(seller));
    expect(await textOf(id)).toContain(squeezed('Offer, not signed'));
    expect(await textOf(id)).toContain(squeezed('Nobody has signed it.'));
    await signNewest(buyer, id, BUYER);
    expect(await textOf(id)).toContain(squeezed('Offer, signed by one side'));
    expect(await textOf(id)).toContain(squeezed(`${BUYER} alone has signed it; it binds nobody`));
    await counterOffer(seller, { offerId: id, baseVersion: 1, document: TERMS, validDays: '5' });
    expect(await textOf(id, 1)).toContain(squeezed('A newer version replaced it.'));
    expect(await textOf(id, 2)).toContain(squeezed('Offer, not signed'));
    await endOffer(seller, { offerId: id });
    expect(await textOf(id)).toContain(squeezed('The offer is over; nothing was agreed.'));
  });

  test('an amendment names the day from which it counts, and the version before says where it ends', async () => {
    const { newest } = await readOffer(buyer, { offerId });
    const document = { ...newest.document, conditions: { notes: 'The gate is shut on Sundays.' } };
    const { offerId: proposal } = await proposeAmendment(buyer, {
      agreementId,
      document,
      effectiveFrom: '2026-12-01',
      validDays: '7',
    });
    expect(await textOf(proposal)).toContain(squeezed('Proposed amendment, not signed'));
    await signNewest(buyer, proposal, BUYER);
    await signNewest(seller, proposal, SELLER);
    const [first, second] = [await agreementPaper(buyer, 1), await agreementPaper(buyer)];
    const [old, now] = [first, second].map(({ bytes }) => paperText(bytes));
    expect(old).toContain(squeezed('Loads delivered from 2026-12-01 on come under version 2.'));
    expect(now).toContain(squeezed('Agreement 1 of Quillback Acres, version 2'));
    expect(now).toContain(squeezed('2026-12-01 on'));
    expect(now).toContain(squeezed('The gate is shut on Sundays.'));

    const { offerId: closing } = await proposeClosing(seller, {
      agreementId,
      lastDelivery: '2026-12-10',
      validDays: '7',
    });
    await expect(offerPaper(seller, closing)).rejects.toMatchObject({ code: 'not-ready' });
    await signNewest(seller, closing, SELLER);
    await signNewest(buyer, closing, BUYER);
    expect(paperText((await agreementPaper(seller)).bytes)).toContain(
      squeezed('Closed early by both sides: 2026-12-10 is the last day of delivery.'),
    );
  });

  test('a copy of what was signed elsewhere claims no signature', async () => {
    const document = { ...TERMS, id: 'E-7', seller: SELLER, buyer: BUYER };
    const { agreementId: elsewhere } = await recordAgreement(seller, {
      document,
      sellerId: seller.caller.partyId,
      buyerId: buyer.caller.partyId,
    });
    const { bytes, name } = await printAgreement(buyer, { agreementId: elsewhere, version: 1, fonts });
    expect(name).toBe('agreement-E-7-version-1');
    const text = paperText(bytes);
    expect(text).toContain(squeezed('this copy shows no signatures'));
    expect(text).not.toContain(squeezed('Signed by both sides'));
  });
});
