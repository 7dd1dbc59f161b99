/**
 * Advisers: they read, write privately to whoever asked, and draft terms; they sign and commit nothing.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { endAdvice } from '../../src/usecases/advice/end-advice.ts';
import { proposeDraft, readDraftGround } from '../../src/usecases/advice/propose-draft.ts';
import { readAdvice, readOneAdvice } from '../../src/usecases/advice/read-advice.ts';
import { readDraft } from '../../src/usecases/advice/read-draft.ts';
import { writeNote } from '../../src/usecases/advice/write-note.ts';
import type { Context } from '../../src/usecases/context.ts';
import { readLoadList } from '../../src/usecases/loads/read-load-list.ts';
import { readWaiting } from '../../src/usecases/loads/read-waiting.ts';
import { recordChoices } from '../../src/usecases/loads/record-choices.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { changeLot, draftLot } from '../../src/usecases/lots/keep-lot.ts';
import { postLot, withdrawLot } from '../../src/usecases/lots/post-lot.ts';
import { counterOffer } from '../../src/usecases/offers/counter-offer.ts';
import { endOffer } from '../../src/usecases/offers/end-offer.ts';
import { makeOffer } from '../../src/usecases/offers/make-offer.ts';
import { proposeAmendment, proposeClosing } from '../../src/usecases/offers/propose-amendment.ts';
import { readOffer } from '../../src/usecases/offers/read-offer.ts';
import { recordElections } from '../../src/usecases/prices/record-elections.ts';
import { recordQuotes } from '../../src/usecases/prices/record-quotes.ts';
import { Refusal, type RefusalCode } from '../../src/usecases/refusal.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { shareLot } from '../../src/usecases/sharing/share-lot.ts';
import { openTestRecord, type TestRecord } from '../store/test-record.ts';
import { agreed, LOT, newSigner, offered, postedLot, signNewest, TERMS } from './bargain.ts';

let record: TestRecord;
let seller: Context;
let dairy: Context;
let rival: Context;
let practice: Context;
let lotId: string;
let offerId: string;
let agreementId: string;
let onOffer: string;
let onAgreement: string;
const SELLER = 'Quillback Acres';
const PRACTICE = 'Row and Husk Advice';

beforeAll(async () => {
  record = await openTestRecord();
  seller = await newSigner(record.tools, SELLER);
  dairy = await newSigner(record.tools, 'Tarn Hollow Dairy');
  rival = await newSigner(record.tools, 'Sorrel Bend Dairy');
  practice = await newSigner(record.tools, PRACTICE);
  agreementId = await agreed({ seller: [seller, SELLER], buyer: [dairy, 'Tarn Hollow Dairy'] });
  lotId = await postedLot(seller);
  offerId = await offered(dairy, lotId);
  await offered(rival, lotId);
  onOffer = (await acceptShare(practice, await askAdviser(dairy, { offerId }))).adviceId ?? '';
  onAgreement = (await acceptShare(practice, await askAdviser(dairy, { agreementId }))).adviceId ?? '';
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

const as = (context: Context, role: 'bookkeeper' | 'viewer' | 'scale-operator'): Context => ({
  ...context,
  caller: { ...context.caller, role },
});

describe('an adviser', () => {
  test('reads what it advises on, and is told whom', async () => {
    const given = await readAdvice(practice);
    expect(given.map(({ isOurs, other }) => [isOurs, other])).toEqual([
      [true, 'Tarn Hollow Dairy'],
      [true, 'Tarn Hollow Dairy'],
    ]);
    expect(given.map(({ words }) => words)).toEqual([
      expect.stringMatching(/^agreement L\d+-[0-9A-F]{4} with Quillback Acres$/),
      expect.stringMatching(/^the offer on lot \d+ of Quillback Acres$/),
    ]);
    expect(await readOffer(practice, { offerId })).toMatchObject({ side: 'adviser', turn: 'theirs' });
    expect(await readLoadList(practice, { agreementId, status: 'all', locale: 'en-US' })).toMatchObject({
      loads: [],
    });
    const asked = await readAdvice(dairy, { offerId });
    expect(asked).toMatchObject([{ id: onOffer, isOurs: false, other: PRACTICE }]);
    expect(await readAdvice(seller)).toEqual([]);
    expect(await readAdvice(rival)).toEqual([]);
  });

  const attempts: readonly (readonly [string, () => Promise<unknown>])[] = [
    ['signs', () => signNewest(practice, offerId, PRACTICE)],
    ['counters', () => counterOffer(practice, { offerId, baseVersion: 1, document: TERMS, validDays: '5' })],
    ['ends an offer', () => endOffer(practice, { offerId })],
    ['makes an offer on the lot', () => makeOffer(practice, { lotId, document: TERMS, validDays: '5' })],
    ['changes the lot', () => changeLot(practice, { lotId, document: LOT })],
    ['posts the lot', () => postLot(practice, { lotId, audience: 'everyone' })],
    ['withdraws the lot', () => withdrawLot(practice, { lotId })],
    ['shares the lot', () => shareLot(practice, { lotId })],
    ['asks another adviser', () => askAdviser(practice, { offerId })],
    [
      'amends',
      () =>
        proposeAmendment(practice, {
          agreementId,
          document: TERMS,
          effectiveFrom: '2026-12-01',
          validDays: '5',
        }),
    ],
    ['closes', () => proposeClosing(practice, { agreementId, lastDelivery: '2026-12-01', validDays: '5' })],
    [
      'records a load',
      () =>
        recordLoads(practice, {
          agreementId,
          loads: [
            {
              ticket: 'A1',
              delivered_at: '2026-09-14T12:00:00-06:00',
              gross: '78220',
              tare: '31100',
              unit: 'lb',
              sample: 'A1',
            },
          ],
        }),
    ],
    [
      'records a result',
      () =>
        recordResults(practice, {
          agreementId,
          results: [{ sample: 'A1', basis: 'dry-matter', dry_matter: '59.2', starch: '54', ndf: '31.34' }],
        }),
    ],
    [
      'records a price',
      () =>
        recordQuotes(practice, {
          agreementId,
          quotes: [{ series: 'corn-elevator-bid', date: '2026-09-14', price: '4.20' }],
        }),
    ],
    [
      'names a pricing date',
      () =>
        recordElections(practice, {
          agreementId,
          elections: [{ ticket: 'A1', series: 'corn-elevator-bid', date: '2026-09-14' }],
        }),
    ],
    [
      'accepts a load',
      () => recordChoices(practice, { agreementId, choices: [{ ticket: 'A1', choice: 'accept' }] }),
    ],
    ['settles', () => settleLoads(practice, { agreementId })],
  ];
  test.each(attempts)('never %s', async (_, attempt) => {
    expect(await refused(attempt())).toBe('not-yours');
  });

  test('has nothing waiting in what it only reads', async () => {
    await recordLoads(seller, {
      agreementId,
      loads: [
        {
          ticket: 'W1',
          delivered_at: '2026-09-14T12:00:00-06:00',
          gross: '78220',
          tare: '31100',
          unit: 'lb',
          sample: 'W1',
        },
      ],
    });
    expect(await readWaiting(dairy)).toHaveLength(1);
    expect(await readWaiting(practice)).toEqual([]);
  });
});

describe('notes', () => {
  test('go both ways between the two, and nobody else reads them', async () => {
    await writeNote(practice, {
      adviceId: onOffer,
      text: 'Ask for a floor.\r\nThe cliff at 32 % moves money.',
    });
    await writeNote(as(dairy, 'bookkeeper'), { adviceId: onOffer, text: 'We will.' });
    for (const [who, ours] of [
      [practice, [true, false]],
      [dairy, [false, true]],
    ] as const) {
      const { notes } = await readOneAdvice(who, { adviceId: onOffer });
      expect(notes.map(({ text }) => text)).toEqual([
        'Ask for a floor.\nThe cliff at 32 % moves money.',
        'We will.',
      ]);
      expect(notes.map(({ isOurs }) => isOurs)).toEqual(ours);
    }
    for (const other of [seller, rival]) {
      expect(await refused(readOneAdvice(other, { adviceId: onOffer }))).toBe('not-found');
      expect(await refused(writeNote(other, { adviceId: onOffer, text: 'x' }))).toBe('not-found');
      const rows = await other.store.forParty(other.caller.partyId, (tx) => tx.adviceNote.findMany());
      expect(rows).toEqual([]);
    }
  });

  test('say something, and come from the office', async () => {
    const note = { adviceId: onOffer, text: 'x' };
    expect(await refused(writeNote(practice, { ...note, text: ' \n ' }))).toBe('bad-input');
    expect(await refused(writeNote(practice, { ...note, text: 'x'.repeat(4_001) }))).toBe('bad-input');
    expect(await refused(writeNote(practice, { ...note, text: 'bell \u0007' }))).toBe('bad-input');
    expect(await refused(writeNote(as(dairy, 'viewer'), note))).toBe('not-allowed');
    expect(await refused(writeNote(practice, { ...note, adviceId: 'none' }))).toBe('not-found');
  });

  test('stand under their author’s name, whatever a program says', async () => {
    const forged = practice.store.forParty(practice.caller.partyId, (tx) =>
      tx.adviceNote.create({
        data: {
          adviceId: onOffer,
          id: record.tools.newId(),
          byPartyId: dairy.caller.partyId,
          byName: 'Tarn Hollow Dairy owner',
          text: 'forged',
          writtenAt: new Date(0),
        },
      }),
    );
    await expect(forged).rejects.toThrow(/row-level security/);
  });
});

describe('a draft', () => {
  const dearer = {
    ...TERMS,
    price: [{ term: 'flat', label: 'All', rate: '60', per: 'short-ton', weight: 'as-fed' }],
  };

  test('is whole terms with the names of the offer, and commits nobody', async () => {
    const { document } = await readDraftGround(practice, { adviceId: onOffer });
    expect(document).toMatchObject({ seller: SELLER, buyer: 'Tarn Hollow Dairy' });
    const { draftId } = await proposeDraft(practice, {
      adviceId: onOffer,
      document: { ...dearer, seller: 'Somebody else', feed: 'shelled-corn' },
    });
    const draft = await readDraft(dairy, { draftId });
    expect(draft).toMatchObject({ adviser: PRACTICE, subject: { offerId } });
    expect(draft.document).toEqual({ ...document, price: dearer.price });
    expect((await readOffer(dairy, { offerId })).versions).toHaveLength(1);
    for (const other of [seller, rival]) {
      expect(await refused(readDraft(other, { draftId }))).toBe('not-found');
    }
    // Sent by whoever asked, as a version of their own.
    const sent = { offerId, baseVersion: 1, document: draft.document, validDays: '5' };
    expect(await counterOffer(dairy, sent)).toEqual({ version: 2 });
    const [view] = await readAdvice(dairy, { offerId });
    expect(view).toMatchObject({ drafts: [{ id: draftId }], builderPath: `/offers/${offerId}/counter` });
  });

  test('names every fault with its path, and comes from the adviser alone', async () => {
    const wrong = { ...TERMS, price: [] };
    const error = await proposeDraft(practice, { adviceId: onOffer, document: wrong }).catch(
      (e: unknown) => e,
    );
    expect(error).toBeInstanceOf(Refusal);
    expect((error as Refusal).problems.map(({ column }) => column)).toContain('$.price');
    expect(await refused(proposeDraft(dairy, { adviceId: onOffer, document: TERMS }))).toBe('not-yours');
    expect(await refused(readDraftGround(dairy, { adviceId: onOffer }))).toBe('not-yours');
    const operator = as(practice, 'scale-operator');
    expect(await refused(proposeDraft(operator, { adviceId: onOffer, document: TERMS }))).toBe('not-allowed');
    const forged = dairy.store.forParty(dairy.caller.partyId, (tx) =>
      tx.adviceDraft.create({
        data: {
          adviceId: onOffer,
          id: record.tools.newId(),
          document: '{}',
          byName: 'x',
          writtenAt: new Date(0),
        },
      }),
    );
    await expect(forged).rejects.toThrow(/row-level security/);
  });

  test('for a lot that is still drafted is an asking formula, without names', async () => {
    const { lotId: draftedLot } = await draftLot(seller, { document: LOT });
    const link = await askAdviser(seller, { lotId: draftedLot });
    const adviceId = (await acceptShare(practice, link)).adviceId ?? '';
    const { document, lotTests } = await readDraftGround(practice, { adviceId });
    expect(lotTests).toEqual([{ 'dry-matter': '58', starch: '56', ndf: '25' }]);
    const { draftId } = await proposeDraft(practice, { adviceId, document });
    const draft = await readDraft(seller, { draftId });
    expect(draft.document).toEqual(TERMS);
    expect(await readOneAdvice(seller, { adviceId })).toMatchObject({
      builderPath: `/lots/${draftedLot}/edit`,
    });
    await changeLot(seller, { lotId: draftedLot, document: { ...LOT, asking: draft.document } });
  });

  test('of an agreement is the whole file, and of its early end there is none', async () => {
    const { draftId } = await proposeDraft(practice, { adviceId: onAgreement, document: dearer });
    const { document } = await readDraft(dairy, { draftId });
    const amendment = { agreementId, document, effectiveFrom: '2026-12-01', validDays: '5' };
    const { offerId: proposed } = await proposeAmendment(dairy, amendment);
    await endOffer(dairy, { offerId: proposed });
    const closing = await proposeClosing(dairy, {
      agreementId,
      lastDelivery: '2026-12-01',
      validDays: '5',
    });
    const onClosing = await acceptShare(practice, await askAdviser(dairy, closing));
    expect(
      await refused(proposeDraft(practice, { adviceId: onClosing.adviceId ?? '', document: TERMS })),
    ).toBe('bad-input');
    await endOffer(dairy, closing);
  });
});

describe('the end of advice', () => {
  test.each(['dairy', 'practice'])('comes from the %s, closes the adviser’s eyes, and stays', async (who) => {
    const lot = await postedLot(seller);
    const offer = await offered(dairy, lot);
    const { adviceId } = await acceptShare(practice, await askAdviser(dairy, { offerId: offer }));
    const id = adviceId ?? '';
    await writeNote(practice, { adviceId: id, text: 'Good terms.' });
    expect(await refused(endAdvice(rival, { adviceId: id }))).toBe('not-found');
    expect(await refused(endAdvice(as(dairy, 'viewer'), { adviceId: id }))).toBe('not-allowed');
    await endAdvice(who === 'dairy' ? dairy : practice, { adviceId: id });
    expect(await refused(readOffer(practice, { offerId: offer }))).toBe('not-found');
    expect(await readOneAdvice(practice, { adviceId: id })).toMatchObject({
      notes: [{ text: 'Good terms.' }],
    });
    expect(await refused(endAdvice(dairy, { adviceId: id }))).toBe('advice-over');
    expect(await refused(writeNote(practice, { adviceId: id, text: 'More.' }))).toBe('advice-over');
    expect(await refused(proposeDraft(practice, { adviceId: id, document: TERMS }))).toBe('advice-over');
    // Not even the program may open it again.
    const reopened = practice.store.forParty(practice.caller.partyId, (tx) =>
      tx.advice.update({ where: { id }, data: { endedAt: null } }),
    );
    await expect(reopened).rejects.toThrow(/stays ended/);
    // Asked again, it is new advice.
    await acceptShare(practice, await askAdviser(dairy, { offerId: offer }));
    expect(await readAdvice(dairy, { offerId: offer })).toHaveLength(2);
  });
});
